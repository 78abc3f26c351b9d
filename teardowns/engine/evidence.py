"""Evidence as arrays, and its pooling into one column a quantity."""
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from .columns import EVIDENCE, Column, Frame
from .quantities import CODES, GROUPS, QUANTITIES

INDEX = {code: j for j, code in enumerate(CODES)}
# A load that was held at a stated output voltage also shows that this voltage was delivered.
WITNESSES = {"offered_voltage": ("sustained_power", "peak_power")}
WITNESS_U = 0.01     # relative, of a voltage noted beside a load test; common practice, no source
# What a reading without a stated uncertainty is taken to be worth, relative, k = 1;
# common practice, no source. Hand-held meters: basis of the load tests, 0.5 % and 2 digits.
ASSUMED_U = {"measured": 0.02, "read_off": 0.01, "decoded": 0.01, "data_sheet": 0.02,
             "estimated": 0.2, "claimed_by_seller": 0.3}
SIZES_BY_CALIPER = {quantity.code for quantity in GROUPS["plug"] if quantity.unit == "m"}
CALIPER_U = 5e-5                    # m, k = 1, of a plug's size: 0.10 mm expanded
MARKED_TOLERANCE = 0.2 / 3**0.5     # ±20 %, the usual class of an electrolytic capacitor


@dataclass(frozen=True, slots=True)
class EvidenceTable:
    """Accepted evidence, one row an observation, sorted by (row, code, evidence_id).

    units : (n,) int           database keys or any numbers of the units, in the order of `row`
    row : (r,) int             which unit, 0 to n − 1
    code : (r,) int            which quantity, index into quantities.CODES
    value, u : (r,) float      observation and standard uncertainty, SI
    mains_voltage : (r,) float     rms voltage during the observation, NaN = not stated [V]
    output_voltage : (r,) float    at the port during the observation, NaN = not stated [V]
    port : (r,) int            which port of the unit, −1 = not stated, −2 = all together
    scale : (r,) int           number of the photo scale it was read from, −1 = none
    evidence_id : (r,) int     index into the caller's refs, so that a number can be traced
    """

    units: np.ndarray
    row: np.ndarray
    code: np.ndarray
    value: np.ndarray
    u: np.ndarray
    mains_voltage: np.ndarray
    output_voltage: np.ndarray
    port: np.ndarray
    scale: np.ndarray
    evidence_id: np.ndarray

    def behind(self, row: int, code: str) -> list[int]:
        """The evidence ids behind one pooled number."""
        start, stop = np.searchsorted(self.row, [row, row + 1])
        mine = slice(start, stop)
        codes = self.code[mine]
        ids = self.evidence_id[mine][codes == INDEX[code]]
        if code in WITNESSES:
            seen = np.logical_or.reduce([codes == INDEX[other] for other in WITNESSES[code]])
            seen &= ~np.isnan(self.output_voltage[mine])
            ids = np.concatenate([ids, self.evidence_id[mine][seen]])
        return ids.tolist()

    def of(self, code: str) -> "EvidenceTable":
        """The rows about one quantity."""
        return self.take(self.code == INDEX[code])

    def by_code(self) -> "Iterator[tuple[str, EvidenceTable]]":
        """The rows about each quantity that there are rows about, in the order of CODES."""
        order = np.argsort(self.code, kind="stable")
        codes, counts = np.unique(self.code, return_counts=True)
        for code, stop, count in zip(codes.tolist(), np.cumsum(counts), counts, strict=True):
            yield CODES[code], self.take(order[stop - count:stop])

    def take(self, rows) -> "EvidenceTable":
        return EvidenceTable(self.units, *(getattr(self, name)[rows] for name in _ROWS))

    @classmethod
    def joined(cls, units: np.ndarray, tables: "list[EvidenceTable]") -> "EvidenceTable":
        """The rows of several tables, sorted anew."""
        parts = [np.concatenate([getattr(table, name) for table in tables]) for name in _ROWS]
        order = np.lexsort((parts[-1], parts[1], parts[0]))
        return cls(units, *(part[order] for part in parts))


_ROWS = ("row", "code", "value", "u", "mains_voltage", "output_voltage", "port", "scale",
         "evidence_id")


def assumed_uncertainty(code: str, how: str, value: float) -> float:
    """Standard uncertainty of a reading whose own was not recorded. [unit of the quantity]"""
    if QUANTITIES[code].is_flag:
        return 0.0
    if code == "bulk_capacitance_marked":
        return MARKED_TOLERANCE * abs(value)
    if code in SIZES_BY_CALIPER and how == "measured":
        return CALIPER_U
    return ASSUMED_U.get(how, ASSUMED_U["estimated"]) * abs(value)


@np.errstate(invalid="ignore", divide="ignore")       # unknown is NaN, not a warning
def pool_evidence(evidence: EvidenceTable) -> Frame:
    """One column a quantity that anybody observed; how is said by Quantity.pooling."""
    n = len(evidence.units)
    columns = {}
    for code, rows in evidence.by_code():
        columns[code] = _pool(QUANTITIES[code].pooling, rows.row, rows.value, rows.u, n)
    for code, others in WITNESSES.items():
        row, value, u = _with_witnesses(evidence, code, others)
        if row.size:
            columns[code] = _pool(QUANTITIES[code].pooling, row, value, u, n)
    return Frame(n, columns, _scales(evidence, n))


def _scales(evidence, n):
    """By code, (n,) int: the photo scale behind a quantity that was read once; −1 for none."""
    scales = {}
    for j in np.unique(evidence.code[evidence.scale >= 0]).tolist():
        rows = evidence.of(CODES[j])
        count = np.bincount(rows.row, minlength=n)
        scale = np.full(n, -1)
        scale[rows.row] = rows.scale
        scales[CODES[j]] = np.where(count == 1, scale, -1)
    return scales


def _with_witnesses(evidence, code, others):
    seen = np.isin(evidence.code, [INDEX[other] for other in others])
    seen &= ~np.isnan(evidence.output_voltage)
    own = evidence.of(code)
    volts = evidence.output_voltage[seen]
    return (np.concatenate([own.row, evidence.row[seen]]),
            np.concatenate([own.value, volts]),
            np.concatenate([own.u, WITNESS_U * volts]))


def _pool(pooling, row, value, u, n):
    if pooling == "mean":
        pooled, u = _weighted_mean(row, value, u, n)
    elif pooling == "flag":
        pooled, u = _agreed(row, value, n)
    else:
        pooled, u = _extreme(row, value, u, n, 1 if pooling == "highest" else -1)
    return Column(pooled, u, np.where(np.isnan(pooled), 0, EVIDENCE).astype(np.int8))


def _weighted_mean(row, value, u, n):
    """Inverse-variance mean; where observations disagree, u grows by the Birge ratio.

    R. T. Birge, Phys. Rev. 40, 207 (1932); never below one (from memory).
    """
    # A zero uncertainty would divide by zero; one part in 10⁶ stands for "exact".
    weight = np.maximum(u, 1e-6 * np.maximum(np.abs(value), 1e-12)) ** -2.0
    total, count = np.bincount(row, weight, n), np.bincount(row, minlength=n)
    mean = np.bincount(row, weight * value, n) / total
    misfit = np.bincount(row, weight * (value - mean[row]) ** 2, n)
    spread = np.maximum(np.sqrt(misfit / np.maximum(count - 1, 1)), 1.0) / np.sqrt(total)
    # A single observation stays what it is, to the last digit.
    return (np.where(count == 1, np.bincount(row, value, n), mean),
            np.where(count == 1, np.bincount(row, u, n), spread))


def _agreed(row, value, n):
    """A flag that all observers agree on; disagreement is unknown."""
    count = np.bincount(row, minlength=n)
    yes = np.bincount(row, value, n)
    agreed = np.where(yes == count, 1.0, np.where(yes == 0, 0.0, np.nan))
    agreed[count == 0] = np.nan
    return agreed, np.where(np.isnan(agreed), np.nan, 0.0)


def _extreme(row, value, u, n, sign):
    """The highest (sign 1) or lowest (−1) value and the smallest u among its equals."""
    best = np.full(n, -np.inf)
    np.maximum.at(best, row, sign * value)
    width = np.full(n, np.inf)
    mine = sign * value == best[row]
    np.minimum.at(width, row[mine], u[mine])
    seen = np.isfinite(best)
    return np.where(seen, sign * best, np.nan), np.where(seen, width, np.nan)
