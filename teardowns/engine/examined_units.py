"""What was worked out for many units at once, told of one of them.

Every stage gives a unit the same bits alone and among many, so a report reads its own rows of what
all were examined by; nothing is worked out again.
"""
from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from .cases import Cases
from .columns import Column, Frame
from .judging import Examined, Judged, Spoken
from .lines import Line
from .posterior import Grid
from .voltages import VoltageEvidence


class ExaminedUnits:
    """Of n units, by their place; without what is not read any more, each line's own terms."""

    def __init__(self, examined: Examined, claim_rows: np.ndarray, n: int):
        """claim_rows : (m,) int, the unit of each claim, ascending"""
        voltage, edges = examined.voltage, np.arange(n + 1)
        self._judged, self._cases, self._grid = examined.judged, examined.cases, examined.grid
        self._frames, self._voltage = examined.frames, replace(voltage, lines=(), terms=())
        self._total = [power.total for power in examined.power]
        # (n + 1,) int each: where a unit's claims, cases and judged voltages begin.
        self._of_claims = np.searchsorted(claim_rows, edges).tolist()
        self._of_cases = np.searchsorted(examined.cases.unit, edges).tolist()
        self._of_voltage = np.searchsorted(voltage.claim, self._of_claims).tolist()
        self._lines = [_begun(power.lines, self._of_cases) for power in examined.power]
        self._voltage_lines = _begun(voltage.lines, self._of_voltage)

    def one(self, row: int) -> Examined:
        """All that is behind one unit's numbers, as if it had been examined alone."""
        claims, cases, volts = (slice(*begun[row:row + 2]) for begun in (
            self._of_claims, self._of_cases, self._of_voltage))
        return Examined(
            self._judged_of(row, claims), self._cases_of(row, claims, cases),
            Grid(self._grid.start[cases], self._grid.step[cases]),
            tuple(_frame(frame, cases) for frame in self._frames),
            tuple(Spoken(tuple(_of_unit(lines, row, cases)), total[cases])
                  for lines, total in zip(self._lines, self._total, strict=True)),
            self._voltage_of(row, claims, volts))

    def _judged_of(self, row, claims):
        return Judged(*(getattr(self._judged, name)[
            slice(row, row + 1) if name == "capability" else claims] for name in Judged.__slots__))

    def _cases_of(self, row, claims, cases):
        whole = self._cases
        return Cases(
            np.zeros_like(whole.unit[cases]), whole.voltage[cases], whole.port[cases],
            whole.several[cases], whole.of_claim[claims] - cases.start,
            whole.headline[row:row + 1] - cases.start, whole.highest[cases])

    def _voltage_of(self, row, claims, volts):
        whole = self._voltage
        return VoltageEvidence(
            whole.claim[volts] - claims.start, _frame(whole.frame, volts), whole.x[volts],
            tuple(_of_unit(self._voltage_lines, row, volts)), (), whole.total[volts],
            whole.switched[volts], whole.stays[volts])


def _begun(lines, begun):
    """The lines that speak for anybody, each with where every unit's rows begin."""
    return [(line, np.searchsorted(line.rows, begun).tolist()) for line in lines if line.rows.size]


def _of_unit(lines, row: int, rows: slice) -> Iterator[Line]:
    """The lines that speak for one unit, whose cases or claims are `rows`."""
    for line, begun in lines:
        if begun[row] < begun[row + 1]:
            places = slice(begun[row], begun[row + 1])
            yield line.take(places, line.rows[places] - rows.start)


def _frame(frame, rows: slice):
    return Frame(rows.stop - rows.start, ColumnsAt(frame.columns, rows),
                 {code: scale[rows] for code, scale in frame.scales.items()})


class ColumnsAt(Mapping[str, Column]):
    """Some rows of columns, each taken when somebody reads it first."""

    def __init__(self, whole: Mapping[str, Column], rows: slice):
        self._whole, self._rows = whole, rows
        self._taken: dict[str, Column] = {}

    def __getitem__(self, code: str) -> Column:
        if code not in self._taken:
            self._taken[code] = self.taken(code, self._whole[code].take(self._rows))
        return self._taken[code]

    def taken(self, code: str, column: Column) -> Column:
        """What is to be read of a column that was taken."""
        return column

    def __contains__(self, code: object) -> bool:
        return code in self._whole

    def __iter__(self) -> Iterator[str]:
        return iter(self._whole)

    def __len__(self) -> int:
        return len(self._whole)
