"""Which readings would make a silent line of evidence speak, and with which uncertainty.

The rule itself is asked, with a typical reading in place of each missing one: whether it has a
value under the unit's other conditions, and how far it would be off.
"""
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np

from .columns import DEFAULT, DERIVED, EVIDENCE, Column, Frame
from .defaults import DEFAULTS
from .effort import EFFORT, minutes_for
from .rule import CONDITIONS, Rule
from .uncertainty import within

# Ways to what a default works out from other readings; elsewhere the quantity itself is read.
WAYS = {
    "bulk_capacitance": (("bulk_capacitance_marked",), ("bulk_capacitance",)),
    "core_effective_area": (("core_depth", "core_width"), ("core_effective_area",)),
    "inductance_factor": (("air_gap",), ("primary_inductance", "primary_turns")),
    "output_ripple_rating": (("output_ripple_rating",), (
        "output_capacitor_count", "output_capacitor_diameter", "output_capacitor_length")),
}
# Optional inputs of which a line takes one set or another: the set that is quicker to read.
BESIDE = {"voltage/auxiliary_supply": ("controller_supply_low", "output_voltage_no_load",
                                      "photographed_sides")}
# What a typical reading is where the claim says it.
AS_CLAIMED = {"advertised_voltage": "output_voltage"}
DERIVED_FROM = {code: frozenset(name.removesuffix("_u") for name in item.reads)
                for code, item in DEFAULTS.items() if item.how == DERIVED}


@dataclass(frozen=True, slots=True)
class SilentLine:
    rule: Rule
    reads: tuple[str, ...]      # the readings that are asked for
    sigma: float                # in ln, with all of them


def silent_lines(rules: Iterable[Rule], frame: Frame, speaking: Collection[str],
                 reached: str) -> Iterator[SilentLine]:
    """The silent lines that readings would make speak, each by its quickest way.

    frame : one row, as the lines read it; speaking : ids of the lines that speak
    reached : stage to which the unit has been taken apart
    """
    for rule in rules:
        if rule.id not in speaking and rule.unless not in speaking:
            reads = quickest_way(rule, frame, reached)
            sigma = as_if_read(rule, frame, reads) if reads else None
            if sigma is not None:
                yield SilentLine(rule, reads, sigma)


def quickest_way(rule: Rule, frame: Frame, reached: str) -> tuple[str, ...]:
    """The readings that the line lacks; () where it lacks none."""
    lacking = _lacking(rule, frame)
    choices = [[[part for part in way if _unknown(part, frame)] for way in
                WAYS.get(code, ((code,),))] for code in lacking]
    beside = [code for code in BESIDE.get(rule.id, ()) if _assumed(code, frame)]
    ways = [tuple(sorted({code for way in each for code in way}.union(beside)))
            for each in product(*choices)]
    return min(ways, key=lambda way: (minutes_for(way, reached), way)) if lacking else ()


def _assumed(code, frame):
    return _unknown(code, frame) or int(frame[code].how[0]) == DEFAULT


def _lacking(rule, frame):
    """Required codes without a value, or all optional ones; a default alone is no evidence."""
    needed = [code for code in rule.required if code not in CONDITIONS]
    if lacking := [code for code in needed if _unknown(code, frame)]:
        return lacking
    optional = [code for code in rule.reads if code in rule.optional]
    if optional and all(_unknown(code, frame) for code in optional):
        return optional
    assumed = [code for code in needed if frame[code].how[0] == DEFAULT]
    return assumed if len(assumed) == len(needed) else []


def _unknown(code, frame):
    return bool(np.isnan(frame[code].value[0]))


def as_if_read(rule: Rule, frame: Frame, reads: Iterable[str]) -> float | None:
    """The line's uncertainty in ln as if these had been read; None where it would be silent."""
    new = {code: _typical(code, frame) for code in reads}
    frame, wanted = frame.with_columns(new), _wanted(rule)
    for code, bases in DERIVED_FROM.items():
        if code in wanted and bases & new.keys() and _unknown(code, frame):
            item = DEFAULTS[code]
            value, u = item.compute(*(_read(frame, name) for name in item.reads))
            new[code] = Column(value, u, _how(DERIVED))
            frame = frame.with_columns(new)
    if any(_unknown(code, frame) for code in rule.required):
        return None
    return _uncertainty(rule, *(np.array([getattr(frame[code], part)[0] for code in rule.reads])
                                for part in ("value", "u")))


def _wanted(rule):
    """What the rule reads, with what that may be worked out from."""
    wanted = set(rule.reads)
    for code in reversed(DERIVED_FROM):
        if code in wanted:
            wanted |= DERIVED_FROM[code]
    return wanted


def _uncertainty(rule, value, u):
    """As `uncertainty.contributions`, with all steps of all inputs in one call of the rule.

    value, u : (reads,) float
    """
    n, stepped = len(value), np.flatnonzero(u > 0)
    inputs = np.repeat(value[:, None], 2 * n + 1, axis=1)
    for j in stepped:
        inputs[j, [1 + j, 1 + n + j]] = within(rule.reads[j], value[j] + u[j] * np.array([1, -1]))
    results = np.log(np.asarray(rule.compute(*inputs), float))
    if not np.isfinite(results[0]):
        return None
    above, below = results[1:n + 1] - results[0], results[0] - results[n + 1:]
    parts = np.where(np.isfinite(above) & np.isfinite(below), (above + below) / 2,
                     np.where(np.isfinite(above), above, below))[stepped]
    model = rule.spread(*inputs[:, :1])[0] if rule.spread else rule.model_error
    return float(np.sqrt(np.nan_to_num(parts**2, posinf=0.0).sum() + model**2))


def _typical(code, frame):
    effort = EFFORT[code]
    value = frame[AS_CLAIMED[code]].value if code in AS_CLAIMED else np.array([effort.typical])
    return Column(value, effort.spread * value, _how(EVIDENCE))


def _read(frame, name):
    base = name.removesuffix("_u")
    return frame[base].value if base == name else frame[base].u


def _how(how):
    return np.array([how], np.int8)
