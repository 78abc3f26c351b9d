"""What a contributor writes down: noisy, with gaps, and now and then mistaken.

Each clue is an `Observed` column: NaN where nothing was recorded. Flags are 1 (seen) or 0
(looked and not found), so a part that was overlooked is a wrong 0.
"""
from dataclasses import dataclass

import numpy as np

from .catalogue import CAPACITOR_RATING, step_above

MISSED = np.array([0.6, 0.4, 0.05])     # a part that is there, by sides of the board photographed
TRACE_MISSED = 0.1      # the connection from protocol chip to feedback node
MARKING = 0.20 / np.sqrt(3)         # ±20 % printed, all values alike likely
LCR = 0.02              # reading of a bridge at 100 Hz
METER = 0.01            # power by voltmeter and ammeter


@dataclass(frozen=True, slots=True)
class Observed:
    code: str
    value: np.ndarray                       # (n,) SI, NaN: not recorded
    u: np.ndarray | float                   # (n,) standard uncertainty
    mains: np.ndarray | float = np.nan      # (n,) V, NaN: not stated
    output: np.ndarray | float = np.nan     # (n,) V


def draw_observations(chargers, plates, rng, regime, habits):
    def seen(value, chance=1.0):
        """NaN where the contributor did not look."""
        looked = rng.random(chargers.target.size) < regime.seen * chance
        return np.where(looked, value, np.nan)

    drawn = (*_plate(chargers, plates, rng), *_mass(chargers, rng, seen, habits),
             *_bulk(chargers, rng, seen, habits), *_output_side(chargers, rng, seen))
    return drawn + draw_load_tests(chargers, plates, rng, regime)


def _plate(c, plates, rng):
    n = c.target.size
    legible, current = rng.random(n) < 0.95, rng.random(n) < 0.8
    exact = {"u": 0.0}
    return (Observed("rated_voltage_low", np.where(legible, c.mains_low, np.nan), **exact),
            Observed("rated_voltage_high", np.where(legible, c.mains_high, np.nan), **exact),
            Observed("rated_frequency", np.where(legible, 50.0, np.nan), **exact),
            Observed("rated_input_current",
                     np.where(legible & current, plates.input_current, np.nan), **exact))


def _mass(c, rng, seen, habits):
    """By the specific power that verified units show; one maker in ten builds quite otherwise."""
    n = c.target.size
    bracket = np.searchsorted([8.5, 16.0, 45.0], c.target)
    median, cv = np.array([(0.20, 0.4), (0.28, 0.35), (0.40, 0.3), (0.55, 0.3)])[bracket].T
    spread = np.sqrt(np.log1p(cv**2)) * habits.spread * np.where(rng.random(n) < 0.1, 2.5, 1.0)
    functional = 1e-3 * c.target / (median * np.exp(rng.normal(0, 1, n) * spread))
    ballast = np.where(rng.random(n) < 0.08, functional * rng.uniform(0.2, 1.0, n), 0.0)
    total = seen((functional + ballast) * rng.normal(1, 0.005, n))
    found = np.where(rng.random(n) < 0.8, ballast, 0.0)         # the rest looks like a part
    weighed = np.where((found > 0) & ~np.isnan(total), found, np.nan)
    return (Observed("mass_total", total, 0.005 * (functional + ballast)),
            Observed("mass_ballast", weighed, 0.01 * found))


def _bulk(c, rng, seen, habits):
    n = c.target.size
    looked = seen(c.bulk_nominal)
    measured = rng.random(n) < 0.3
    reading = c.bulk * rng.normal(1, LCR, n)
    bridge = seen(np.where(rng.random(n) < habits.miscounted, 0.0, 1.0), 0.85)
    table = seen(c.published_wide, 0.8)
    corrector = np.where(c.corrector, 1.0, 0.0)
    return (Observed("bulk_capacitance_marked", np.where(measured, np.nan, looked),
                     MARKING * c.bulk_nominal),
            Observed("bulk_capacitance", np.where(measured & ~np.isnan(looked), reading, np.nan),
                     LCR * reading),
            Observed("rectifier_full_wave", np.where(c.full_wave, bridge, 0 * bridge), 0.0),
            Observed("power_factor_corrector", seen(corrector), 0.0),
            Observed("controller_power_wide", table, 0.0),
            Observed("controller_power_high", np.where(np.isnan(table), np.nan, c.published_high),
                     0.0))


def _output_side(c, rng, seen):
    n = c.target.size
    margin = np.exp(abs(rng.normal(0, 0.35, n)))
    rating = CAPACITOR_RATING[step_above(CAPACITOR_RATING, c.top_voltage / 0.9 * margin)]

    sides = rng.choice([0, 1, 2], n, p=[0.05, 0.3, 0.65])

    def flag(code, present, missed=MISSED[sides]):
        noticed = np.where(rng.random(n) < missed, 0.0, 1.0)
        return Observed(code, seen(np.where(present, noticed, 0.0)), 0.0)

    primary = rng.random(n) < np.where(c.target < 15, 0.6, 0.0)
    decodes = c.switchable & primary & (rng.random(n) < 0.15)
    primary = decodes | (primary & ~c.switchable)
    converter = c.switchable & ~primary & (rng.random(n) < 0.1)
    chip = c.switchable & ~decodes | ~c.switchable & ~c.fixed_barrel & (rng.random(n) < 0.5)
    node = c.switchable & ~decodes & ~converter
    return (Observed("output_capacitor_rating", seen(rating), 0.0),
            Observed("photographed_sides", np.where(sides > 0, sides, np.nan), 0.0),
            flag("isolated_feedback", ~primary), flag("primary_feedback", primary),
            flag("primary_decodes_requests", decodes), flag("protocol_controller", chip),
            flag("feedback_node_driven", node, TRACE_MISSED), flag("port_converter", converter))


def draw_load_tests(c, plates, rng, regime):
    """Loads in steps, up to what is claimed or to where it gives way; and a protocol scan."""
    n = c.target.size
    tested = rng.random(n) < regime.tested
    bench = np.where(c.wide & (rng.random(n) < 0.4), rng.choice([100.0, 115.0], n), 230.0)
    at_5v = rng.random(n) < 0.25
    output = np.where(at_5v & plates.several, 5.0, np.minimum(c.top_voltage, plates.voltage))
    asked = np.where(at_5v & plates.several, 5 * plates.current_5v, plates.power)
    can = c.capability_at(bench, output)
    onward = rng.random(n) < 0.3                    # past the claim until it gives way
    gave_way = (can < asked) | onward
    held = np.where(gave_way, can * np.exp(-rng.uniform(0, 0.06, n)), asked)
    lost = can * np.exp(rng.uniform(0, 0.06, n))
    stated = np.where(rng.random(n) < 0.9, bench, np.nan)
    conditions = {"mains": stated, "output": output}

    def meter(value, on):
        return np.where(tested & on, value * rng.normal(1, METER, n), np.nan)

    efficient = meter(c.efficiency, rng.random(n) < 0.4)
    return (Observed("sustained_power", meter(held, True), METER * held, **conditions),
            Observed("failed_power", meter(lost, gave_way), METER * lost, **conditions),
            Observed("efficiency", np.minimum(efficient, 0.98), METER * c.efficiency, **conditions),
            *_scan(c, plates, rng, tested))


def _scan(c, plates, rng, tested):
    n = c.target.size
    scanned = tested & (rng.random(n) < 0.5)
    offered = np.where(scanned, c.top_voltage * rng.normal(1, METER, n), np.nan)
    over = scanned & (plates.voltage > 1.02 * c.top_voltage)
    refused = np.where(over, plates.voltage, np.nan)
    return (Observed("offered_voltage", offered, METER * c.top_voltage),
            Observed("refused_voltage", refused, METER * plates.voltage))
