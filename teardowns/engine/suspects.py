"""A contradiction named: which reading behind two lines is most likely wrong.

A test was passed above a limit, or above a test that was failed. Each reading behind either line
is moved, alone, until both lines say the same: how far that is, in its own standard uncertainties
and as a factor, says how likely it is the one.
"""
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import exp, hypot, inf, isfinite, log, nan

import numpy as np

from .columns import DEFAULT, DERIVED, EVIDENCE, Frame
from .defaults import DEFAULTS
from .effort import EFFORT
from .explain import line_of, number
from .judging import ENDS, Examined
from .pipeline import Assessment
from .quantities import QUANTITIES
from .rule import Rule
from .step_texts import label
from .uncertainty import within
from .wording import shown

MEASURED, READ_OFF, ESTIMATED, ASSUMED = "measured", "read off", "estimated", "assumed"
# How often a reading is a gross mistake, whatever its stated uncertainty: a wrong part, a slipped
# digit, a bad contact. Common practice, no source.
MISTAKEN = {MEASURED: 0.02, READ_OFF: 0.05, ASSUMED: 0.05, ESTIMATED: 0.2}
MISTAKE_SIZE = log(3.0)      # mean size of such a mistake, in ln; our own choice
ESTIMATE = 0.15              # relative u from which on a reading is no measurement
BY_SIGHT = {"eye", "look", "trace", "count", "data sheet", "photograph"}
FARTHEST = 30.0              # factor; no reading is moved farther
NAMED, LEAST = 4, 0.05       # how many suspects are named, and the share that one must have


@dataclass(frozen=True, slots=True)
class Side:
    """One line of the pair, and the columns that it reads: one row."""

    rule: Rule
    frame: Frame
    value: float


@dataclass(frozen=True, slots=True)
class Suspect:
    rule: Rule
    code: str
    how: str
    value: float
    agrees: float           # the value at which both lines say the same; a flag: its opposite
    factor: float           # agrees / value; NaN for a flag
    sigmas: float           # in its own standard uncertainties; inf where it has none
    share: float = nan      # of the suspicion against all readings of the pair


@np.errstate(invalid="ignore", divide="ignore", over="ignore", under="ignore")
def suspects(assessment: Assessment, examined: Examined, mine: Sequence[int] | np.ndarray,
             index: int) -> list[dict]:
    """The likeliest mistakes behind a claim's contradiction; none where there is none.

    examined, mine : of `pipeline.examine_unit`; index : into assessment.claims
    """
    pair = assessment.judged.conflict[index].tolist()
    if pair[0] < 0:
        return []
    above, below = (assessment.rulebook.lines[j] for j in pair)
    claim = [int(one) for one in mine].index(index)
    sides = _worst_end(examined, above, below, claim)
    named = [one for one in weigh_suspects(*sides) if one.share >= LEAST] if sides else []
    return [_as_dict(one) for one in named[:NAMED]]


def _worst_end(examined, above, below, claim) -> tuple[Side, Side] | None:
    """Both lines at the mains end where they lie farthest apart."""
    worst, found = 0.0, None
    for at, end in enumerate(ENDS):
        upper, lower = (line_of(examined, rule, end, claim) for rule in (above, below))
        if upper is None or lower is None:
            continue
        (high, j), (low, k) = upper, lower
        excess = log(high.value[j] / low.value[k]) / hypot(high.u_ln[j], low.u_ln[k])
        if excess > worst:
            worst, found = excess, (_side(examined, at, high, j), _side(examined, at, low, k))
    return found


def _side(examined, at, line, place):
    frame = examined.frames[at] if line.rule.on == "power" else examined.voltage.frame
    return Side(line.rule, frame.take([int(line.rows[place])]), float(line.value[place]))


def weigh_suspects(above: Side, below: Side) -> list[Suspect]:
    """Every reading that could dissolve the contradiction by itself, the likeliest first."""
    found = [*_of_side(above, below.value, -1), *_of_side(below, above.value, 1)]
    total = sum(_weight(one) for one in found)
    shared = [replace(one, share=_weight(one) / total) for one in found]
    return sorted(shared, key=lambda one: (-one.share, one.rule.id, one.code))


def _weight(one):
    """How likely such a mistake is: by the stated uncertainty, or a gross one."""
    size = abs(log(one.factor)) if isfinite(one.factor) else 0.0
    return exp(-0.5 * one.sigmas * one.sigmas) + MISTAKEN[one.how] * exp(-size / MISTAKE_SIZE)


def _of_side(side, target, way) -> Iterator[Suspect]:
    """way : 1 where the line has to rise to the target, −1 where it has to fall"""
    for code in sorted(_readings(side.rule.reads, side.frame)):
        value, u = (float(part[0]) for part in (side.frame[code].value, side.frame[code].u))
        how = how_obtained(code, side.frame)
        if QUANTITIES[code].is_flag:
            if _flips(side, code, 1 - value, target, way):
                yield Suspect(side.rule, code, how, value, 1 - value, nan, inf)
            continue
        factor = _agreeing_factor(side, code, value, target)
        if factor is not None:
            sigmas = abs(factor - 1) * abs(value) / u if u > 0 else inf
            yield Suspect(side.rule, code, how, value, factor * value, factor, sigmas)


def _readings(codes: Iterable[str], frame: Frame) -> set[str]:
    """What people read, through whatever was worked out from it, and what was assumed."""
    found: set[str] = set()
    for code in codes:
        how = int(frame[code].how[0])
        if code not in QUANTITIES or how not in (EVIDENCE, DERIVED, DEFAULT):
            continue
        if how == DERIVED:
            found |= _readings({name.removesuffix("_u") for name in DEFAULTS[code].reads}, frame)
        elif how == EVIDENCE or frame[code].u[0] > 0 or QUANTITIES[code].is_flag:
            found.add(code)
    return found


def how_obtained(code: str, frame: Frame) -> str:
    """In which of four ways a number came about, as far as the columns tell."""
    column = frame[code]
    if column.how[0] == DEFAULT:
        return ASSUMED
    if not QUANTITIES[code].is_flag and column.u[0] >= ESTIMATE * abs(column.value[0]):
        return ESTIMATED
    return READ_OFF if code in EFFORT and EFFORT[code].tool in BY_SIGHT else MEASURED


def _flips(side, code, value, target, way):
    """Whether the opposite finding puts the line on the target's other side."""
    moved = float(_values(side, code, np.array([value]))[0])
    return isfinite(moved) and way * (moved - target) >= 0


def _agreeing_factor(side, code, value, target):
    """The factor nearest to one at which the line has the target's value; None: it has not."""
    if not value:
        return None
    wide = np.linspace(-log(FARTHEST), log(FARTHEST), 241)
    near = _crossing(side, code, value, target, wide)
    if near is None:
        return None
    fine = _crossing(side, code, value, target, np.linspace(near - 0.03, near + 0.03, 25))
    return exp(near if fine is None else fine)


def _crossing(side, code, value, target, steps):
    moved = np.log(_values(side, code, within(code, value * np.exp(steps)))) - log(target)
    first, last = moved[:-1], moved[1:]
    crossed = np.flatnonzero(np.isfinite(first + last) & (first * last <= 0) & (first != last))
    places = steps[crossed] + (steps[1] - steps[0]) * first[crossed] / (
        first[crossed] - last[crossed])
    return float(places[np.abs(places).argmin()]) if places.size else None


def _values(side, code, values):
    """The line's value for other values of one reading, through what is worked out from it."""
    moved = {code: values}
    for item in DEFAULTS.values():
        bases = {name.removesuffix("_u") for name in item.reads}
        if item.code != code and side.frame[item.code].how[0] != EVIDENCE and bases & moved.keys():
            moved[item.code] = item.compute(
                *(_column(side.frame, name, moved, values.shape) for name in item.reads))[0]
    return side.rule.compute(
        *(_column(side.frame, name, moved, values.shape) for name in side.rule.reads))


def _column(frame, name, moved, shape):
    if name in moved:
        return moved[name]
    base = name.removesuffix("_u")
    column = frame[base]
    return np.full(shape, (column.value if base == name else column.u)[0])


def _as_dict(one):
    return {
        "rule": one.rule.id, "code": one.code, "label": QUANTITIES[one.code].label, "how": one.how,
        "value": one.value, "agrees": one.agrees, "factor": number(one.factor),
        "sigmas": number(one.sigmas), "share": one.share, "text": suspect_text(one),
    }


WORDS = {MEASURED: "measured", READ_OFF: "read as", ESTIMATED: "estimated at",
         ASSUMED: "assumed to be"}


def suspect_text(one: Suspect) -> str:
    """"the bulk capacitance (measured 4.7 µF; about 11 µF would agree)"."""
    name = f"the {label(one.code)}"
    if QUANTITIES[one.code].is_flag:
        found = "taken as present" if one.how == ASSUMED else "found"
        absent = "taken as absent" if one.how == ASSUMED else "looked for and not found"
        return (f"{name} ({found}; without it they would agree)" if one.value > 0.5 else
                f"{name} ({absent}; with it they would agree)")
    agrees = shown(one.code, float(f"{one.agrees:.2g}"))
    return f"{name} ({WORDS[one.how]} {shown(one.code, one.value)}; about {agrees} would agree)"
