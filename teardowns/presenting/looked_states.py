"""How a quantity was looked for, where it has no value."""
from __future__ import annotations

from collections.abc import Iterable

# Which part a quantity is read from, where it is not measured.
READ_FROM = {
    "bulk_capacitance": "bulk_capacitor",
    "bulk_capacitance_marked": "bulk_capacitor",
    "bulk_capacitor_rating": "bulk_capacitor",
    "controller_power_wide": "primary_controller",
    "controller_power_high": "primary_controller",
    "output_capacitor_rating": "output_capacitor",
    "isolated_feedback": "optocoupler",
    "protocol_controller": "protocol_controller",
    "port_converter": "port_converter",
    "bus_switch": "pass_switch",
    "rectifier_full_wave": "rectifier",
}

LIMIT_ONLY = "known only as a limit"


def looked_states(measurements: Iterable, components: Iterable) -> dict[str, str]:
    """State in words of each quantity that was looked for, or not, without getting a value."""
    of_part = {row.role: row.get_state_display().lower() for row in components
               if row.state != "recorded"}
    found = {code: of_part[role] for code, role in READ_FROM.items() if role in of_part}
    return found | {row.quantity: LIMIT_ONLY if row.bound_kind else row.get_state_display().lower()
                    for row in measurements if row.state != "recorded"}
