"""What each column of a log is, as far as headings and numbers say it; the rest is asked."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from teardowns.logs.cell_kinds import LOOSE, NUMBER
from teardowns.logs.headings import (
    CURRENT,
    POWER,
    TEMPERATURE,
    VOLTAGE,
    is_channel,
)
from teardowns.logs.questions import Choice, Question, settle
from teardowns.logs.roles import NOT_USED, ROLES, UNITS
from teardowns.logs.roles import TIME as TIME_ROLE
from teardowns.logs.seen_columns import SeenColumn

_ROLES = {
    (VOLTAGE, ""): "output_voltage", (VOLTAGE, "output"): "output_voltage",
    (VOLTAGE, "input"): "input_voltage", (VOLTAGE, "ripple"): "ripple_voltage",
    (VOLTAGE, "switch"): "switch_voltage", (VOLTAGE, "winding"): "winding_voltage",
    (CURRENT, ""): "output_current", (CURRENT, "output"): "output_current",
    (CURRENT, "input"): "input_current", (CURRENT, "set"): "set_current",
    (POWER, ""): "output_power", (POWER, "output"): "output_power",
    (POWER, "input"): "input_power", (TEMPERATURE, "ambient"): "ambient_temperature",
}
_MAINS = {"output_voltage": "input_voltage", "output_current": "input_current",
          "output_power": "input_power"}
_OF_CHANNEL = {
    VOLTAGE: ("output_voltage", "switch_voltage", "winding_voltage", "ripple_voltage",
              "input_voltage"),
    CURRENT: ("output_current", "input_current", "set_current"),
    POWER: ("output_power", "input_power"), TEMPERATURE: ("temperature", "ambient_temperature"),
}
_UNITS = {"V": ("V", "mV"), "A": ("A", "mA"), "W": ("W", "mW"), "°C": ("°C", "°F", "K")}
# A plain "Voltage" whose highest reading lies here may as well be mains. [V]
_MAY_BE_MAINS = (60.0, 500.0)
# Output or mains, a voltage whose highest reading lies here was not written in mV. [V]
_PLAINLY_VOLTS = (1.0, 1000.0)


def find_roles(columns: Sequence[SeenColumn], time: int | None, decimal: str,
               answers: Mapping[str, str]) -> tuple[dict[int, str], tuple[Question, ...]]:
    """Role by index of each column but the time, and what is asked."""
    roles: dict[int, str] = {}
    questions: list[Question] = []
    numbers = [c for c in columns if c.kind in (NUMBER, LOOSE) and c.index != time]
    named = {c.index for c in numbers if _plain_role(c)}
    for column in sorted(numbers, key=lambda c: c.index not in named):
        wanted = _wanted(column, numbers, decimal, bool(named))
        role, asked = _settled(column, wanted, roles, answers)
        roles[column.index] = role
        questions += asked
    _give_way(roles, answers)
    return roles, tuple(sorted(questions, key=lambda question: int(question.field[5:])))


def role_choices(codes: Sequence[str], sample: str) -> tuple[Choice, ...]:
    return tuple(Choice(code, ROLES[code].label, sample) for code in codes)


def _plain_role(column: SeenColumn) -> str:
    """The role that a heading names, or "" where it names none."""
    heading = column.heading
    if heading.quantity == TEMPERATURE:
        return _ROLES.get((TEMPERATURE, heading.side), "temperature")
    return _ROLES.get((heading.quantity, heading.side), "") if heading.named else ""


def _wanted(column: SeenColumn, numbers: Sequence[SeenColumn], decimal: str,
            any_named: bool) -> tuple[str, ...]:
    """The roles that a column may have, the likeliest first."""
    role = _plain_role(column)
    if role in _MAINS and not column.heading.side and _may_be_mains(numbers, decimal):
        return (_MAINS[role], role, NOT_USED)
    if role:
        return (role,)
    if column.heading.quantity in _OF_CHANNEL and not column.heading.named:
        return (*_OF_CHANNEL[column.heading.quantity], NOT_USED)
    silent = not column.label or is_channel(column.label) or not column.heading.quantity
    if any_named or not silent or column.heading.quantity or column.heading.mains_meter:
        return (NOT_USED,)
    return (NOT_USED, TIME_ROLE, *(code for code in ROLES if code not in (NOT_USED, TIME_ROLE)))


def _may_be_mains(numbers: Sequence[SeenColumn], decimal: str) -> bool:
    if any(column.heading.side == "input" for column in numbers):
        return False
    highest = [float(np.abs(c.values(decimal)).max()) for c in numbers
               if c.heading.quantity == VOLTAGE and c.heading.unit in {"V", ""}
               and not c.heading.units and c.values(decimal).size]
    return any(c.heading.mains_meter for c in numbers) or \
        _MAY_BE_MAINS[0] < max(highest, default=0.0) < _MAY_BE_MAINS[1]


def _settled(column: SeenColumn, wanted: Sequence[str], roles: Mapping[int, str],
             answers: Mapping[str, str]) -> tuple[str, tuple[Question, ...]]:
    field = f"role:{column.index}"
    answer = answers.get(field)
    if answer in ROLES:
        return (NOT_USED if answer == TIME_ROLE else answer), ()      # another is the time
    free = [role for role in wanted if ROLES[role].several or role not in roles.values()]
    natural = wanted[0]
    if natural not in free and column.heading.named:      # a second column for the same role
        free = [NOT_USED, natural]
    elif natural not in free:
        # A channel without a name beside a column that has one is not needed.
        free = [NOT_USED] if column.heading.quantity == "" else [NOT_USED, *free]
    sample = column.cells[0] if column.cells else ""
    shown = column.label or f"column {column.index + 1}"
    return settle(field, f"What does “{shown}” hold?",
                  role_choices(tuple(dict.fromkeys(free)), f"first reading: {sample}"), answers)


def _give_way(roles: dict[int, str], answers: Mapping[str, str]) -> None:
    """A role that an answer gave to one column is taken from the others."""
    for index, role in tuple(roles.items()):
        answered = answers.get(f"role:{index}") == role and not ROLES[role].several
        for other in tuple(roles) if answered else ():
            if other != index and roles[other] == role:
                roles[other] = NOT_USED


def find_units(columns: Sequence[SeenColumn], roles: Mapping[int, str], decimal: str,
               answers: Mapping[str, str]) -> tuple[dict[int, str], tuple[Question, ...]]:
    """Unit by index of each column that is used."""
    used = [column for column in columns if roles.get(column.index, NOT_USED) != NOT_USED]
    units = {c.index: _known_unit(c, roles[c.index], decimal, answers) for c in used}
    units |= _units_by_ohms_power(used, roles, units, decimal)
    questions: list[Question] = []
    for column in used:
        if not units[column.index]:
            units[column.index], asked = _ask_unit(column, roles[column.index], answers)
            questions += asked
    return units, tuple(questions)


def _known_unit(column: SeenColumn, role: str, decimal: str, answers: Mapping[str, str]) -> str:
    si = ROLES[role].unit
    if answers.get(f"unit:{column.index}") in UNITS[si]:
        return answers[f"unit:{column.index}"]
    if column.heading.unit in UNITS[si]:
        return column.heading.unit
    if column.kind == LOOSE:              # its cells will be refused, whatever the unit
        return si
    values = np.abs(column.values(decimal))
    if (role in {"output_voltage", "input_voltage"} and values.size and not column.heading.units
            and _PLAINLY_VOLTS[0] <= values.max() < _PLAINLY_VOLTS[1]):
        return "V"
    return ""


def _units_by_ohms_power(used: Sequence[SeenColumn], roles: Mapping[int, str],
                         units: Mapping[int, str], decimal: str) -> dict[int, str]:
    """P = U · I tells the unit of one from those of the other two."""
    by_role = {roles[column.index]: column for column in used}
    trio = [by_role.get(role) for role in ("output_voltage", "output_current", "output_power")]
    columns = [column for column in trio if column]
    unknown = [column for column in columns if not units[column.index]]
    if len(columns) < 3 or len(unknown) != 1 or len({len(c.cells) for c in columns}) > 1:
        return {}
    column, fitting = unknown[0], []
    for unit in _UNITS[ROLES[roles[column.index]].unit]:
        v, i, p = (c.values(decimal) * UNITS[ROLES[roles[c.index]].unit][
            unit if c is column else units[c.index]][0] for c in columns)
        if p.size and np.median(np.abs(v * i - p)) <= 0.1 * np.median(np.abs(p)) > 0:
            fitting.append(unit)
    return {column.index: fitting[0]} if len(fitting) == 1 else {}


def _ask_unit(column: SeenColumn, role: str, answers: Mapping[str, str],
              ) -> tuple[str, tuple[Question, ...]]:
    possible = column.heading.units or _UNITS[ROLES[role].unit]
    sample = column.cells[0] if column.cells else ""
    choices = [Choice(unit, unit, f"{sample} → {sample} {unit}") for unit in possible]
    shown = column.label or f"column {column.index + 1}"
    return settle(f"unit:{column.index}", f"In which unit is “{shown}” written?", choices, answers)


