r"""A gross mistake belongs to a reading, so that every line that rests on it is wrong with it.

A line's own likelihood allows for a slip of what it alone reads (`likelihoods`). Where several
lines of a unit rest on one reading, their chances of being wrong are one chance and not a product
of several. With at most one such reading mistaken in a unit,

.. math:: L = \prod_i L_i + \sum_r \frac{\epsilon_r\,q\,g_r}{1 + k|x - x_r|}
              \prod_{i \notin r} L_i

where :math:`g_r` is the most that the lines of reading r come to together, at :math:`x_r`.
"""
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from .columns import DEFAULT, DERIVED, EVIDENCE, Frame
from .defaults import DEFAULTS
from .likelihoods import MISREAD, TAPER
from .lines import Line
from .quantities import QUANTITIES
from .rule import CONDITIONS, PRACTICE

# q: a mistaken reading may be anything, so that it fits any one capability a tenth as well as a
# right one fits its own. As for a single line, whose 0.025 lies about a tenth below its best.
ANYWHERE = 0.1
CORRECTOR = "power_factor_corrector"
# A unit of 45 to 65 W may have a corrector, though nothing asks for one; if nobody listed one, it
# is overlooked or was not looked for in one unit of twenty (common practice, no source).
SELDOM_CORRECTED, NOT_LISTED = 45.0, 0.05
PHOTO_SCALE = "photo scale"


@dataclass(frozen=True, slots=True)
class SharedReading:
    """One reading, in the cases in which several lines rest on it.

    name : the code of the quantity, or PHOTO_SCALE; rows : (k,) int, the cases, ascending
    chance : (k,) float, how likely it is a gross mistake
    lines : place of each line, and (rows of the line,) int, where its cases stand in `rows`, −1:
        there it does not rest on the reading, or no other line does
    """

    name: str
    rows: np.ndarray
    chance: np.ndarray
    lines: tuple[tuple[int, np.ndarray], ...]


def shared_readings(lines: Sequence[Line], frame: Frame) -> tuple[SharedReading, ...]:
    """Of the lines about power; frame : the columns as they read them, one row a case"""
    speaking = {j for j, line in enumerate(lines) if line.rows.size}
    found = []
    for name, readers in shared_codes(tuple((line.rule.id, line.rule.reads) for line in lines)):
        heard = [(j, ways) for j, ways in readers if j in speaking]
        if _strong(lines, (j for j, _ in heard)) >= _least(name):
            resting = [(j, _any(_rests(*way, frame) for way in ways)) for j, ways in heard]
            found.append(_shared(name, lines, resting, frame))
    if frame.scales:
        found.append(_shared(PHOTO_SCALE, lines, _from_one_photo(lines, speaking, frame), frame))
    return tuple(reading for reading in found if reading.rows.size)


Ways = tuple[tuple[str, str], ...]      # (what a rule reads, the reading that it may rest on)


@lru_cache(maxsize=8)
def shared_codes(rules: tuple) -> tuple[tuple[str, tuple[tuple[int, Ways], ...]], ...]:
    """The quantities that several rules rest on, by name; those of the same rules are one reading.

    rules : (id, reads) of each; returns for each the places of its rules, and on which ways each
    """
    ways: dict[str, dict[int, list]] = {}
    for j, (_, reads) in enumerate(rules):
        for read in reads:
            for code in sorted(_behind(read)):
                if code == CORRECTOR or not QUANTITIES[code].is_flag:
                    ways.setdefault(code, {}).setdefault(j, []).append((read, code))
    by_rules: dict[tuple[int, ...], list[str]] = {}
    for code, readers in sorted(ways.items()):
        if len(readers) > 1:
            by_rules.setdefault(tuple(readers), []).append(code)
    return tuple(
        (codes[0], tuple((j, tuple(way for code in codes for way in ways[code][j]))
                         for j in readers))
        for readers, codes in by_rules.items())


def _behind(read: str) -> set[str]:
    """What is read, and from what it may be worked out."""
    if read not in QUANTITIES or read in CONDITIONS:
        return set()
    item = DEFAULTS.get(read)
    reads = item.reads if item and item.how == DERIVED else ()
    return {read}.union(*(_behind(name.removesuffix("_u")) for name in reads))


def _rests(read, code, frame):
    """(cases,) bool, whether what is read is this reading, or was worked out from it."""
    how = frame[code].how
    known = (how == EVIDENCE) | (how == DERIVED)
    if read == code:
        return known | (how == DEFAULT) if code == CORRECTOR else known
    return known & (frame[read].how == DERIVED)


def _any(found):
    return np.logical_or.reduce(list(found))


def _from_one_photo(lines, speaking, frame):
    """(line, cases) of the lines that rest on a length from the unit's first photo scale."""
    first = np.full(frame.size, np.iinfo(int).max)
    for scale in frame.scales.values():
        first = np.minimum(first, np.where(scale >= 0, scale, first))
    for j in sorted(speaking):
        behind = {code for read in lines[j].rule.reads for code in _behind(read)}
        if codes := sorted(behind & frame.scales.keys()):
            yield j, _any((frame.scales[code] == first) & (frame[code].how == EVIDENCE)
                          for code in codes)


def _shared(name, lines, resting, frame):
    resting = list(resting)
    count = np.zeros(frame.size, int)
    for j, rests in resting:
        if lines[j].rule.kind != PRACTICE:
            count[lines[j].rows] += rests[lines[j].rows]
    chance = _chance(name, frame)
    rows = np.flatnonzero((count >= _least(name)) & (chance > 0))
    place = np.full(frame.size, -1)
    place[rows] = np.arange(len(rows))
    return SharedReading(name, rows, chance[rows], tuple(
        (j, np.where(rests, place, -1)[lines[j].rows]) for j, rests in resting))


def _strong(lines, places):
    """How many are no habits: a habit says little beside another line, right or wrong."""
    return sum(lines[j].rule.kind != PRACTICE for j in places)


def _least(name):
    """How many lines a reading takes: of one alone its own likelihood allows for a slip, but not
    for a corrector that was overlooked."""
    return 1 if name == CORRECTOR else 2


def _chance(name, frame):
    """(cases,) how likely the reading is a gross mistake."""
    if name != CORRECTOR:
        return np.full(frame.size, MISREAD)
    column = frame[CORRECTOR]
    seen = np.where(column.how == EVIDENCE, MISREAD, NOT_LISTED)
    likely = (frame["claimed_power"].value > SELDOM_CORRECTED) & (column.value == 0)
    return np.where(likely, seen, 0.0)


def log_if_mistaken(together, left, chance, points):
    """(k, points) ln of what all evidence says if the reading is a gross mistake.

    together, left : (k, points) ln of the likelihood of all lines, and of those without it
    chance : (k,); points : (k, points) ln W
    """
    of_reading = together - left
    best = of_reading.argmax(axis=1)[:, None]
    away = np.abs(points - np.take_along_axis(points, best, axis=1))
    most = np.take_along_axis(of_reading, best, axis=1)
    return left + (most + np.log(ANYWHERE * chance)[:, None] - np.log1p(TAPER * away))
