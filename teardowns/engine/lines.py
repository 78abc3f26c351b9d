"""What each rule makes of each case: its value and its standard uncertainty in ln."""
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.polynomial.hermite_e import hermegauss

from .columns import Frame
from .rule import SWITCH, Rule
from .uncertainty import contributions, within

SHARED = ("efficiency",)     # read by several lines: integrated jointly, never independent
ORDER = 8                    # Gauss nodes a shared quantity; 1.7e-4 rms against Monte Carlo
_Z, _W = hermegauss(ORDER)
NODES = np.array(list(product(_Z, repeat=len(SHARED))))                         # (nodes, shared)
NODE_WEIGHTS = np.array([np.prod(w) for w in product(_W / _W.sum(), repeat=len(SHARED))])


@dataclass(frozen=True, slots=True)
class Line:
    """One rule over the cases that have the evidence for it.

    rows : (k,) int, the cases        value : (k,) float [W or V; a switch: the ratio]
    sigma : (k,) float, in ln, without the shared quantities
    u_ln : (k,) float, in ln, with them; of a switch, both are its ratio
    shifts : (k, nodes) float, by how much ln(value) moves at each node; None where the line
        reads no shared quantity, or is the only rule that does
    parts : (reads, k) float, each input's contribution to u_ln
    """

    rule: Rule
    rows: np.ndarray
    value: np.ndarray
    sigma: np.ndarray
    u_ln: np.ndarray
    shifts: np.ndarray | None
    parts: np.ndarray


def draw_lines(rules: tuple[Rule, ...], frame: Frame) -> tuple[Line, ...]:
    """Every rule over the frame's rows, with nodes where several rules share a quantity."""
    readers = sum(any(code in SHARED for code in rule.reads) for rule in rules)
    return tuple(_draw(rule, frame, with_nodes=readers > 1) for rule in rules)


def _draw(rule, frame, with_nodes):
    rows, columns, value = _known(rule, frame)
    if rule.kind == SWITCH:
        return Line(rule, rows, value, value, value, None,
                    np.zeros((len(rule.reads), len(rows))))
    parts = np.stack(contributions(rule, columns, value))
    is_shared = [code in SHARED for code in rule.reads]
    own, joint = (
        sum((part * part for part, s in zip(parts, is_shared, strict=True) if s is flag),
            np.zeros(len(rows)))
        for flag in (False, True)
    )
    own = own + rule.model_error**2
    shifts = _shifts(rule, columns, value) if with_nodes and any(is_shared) else None
    return Line(rule, rows, value, np.sqrt(own), np.sqrt(own + joint), shifts, parts)


def _known(rule, frame):
    """The rows with all required inputs and a positive result, their columns and values."""
    columns = [frame[code] for code in rule.reads]
    known = np.ones(frame.size, bool)
    for code, column in zip(rule.reads, columns, strict=True):
        if code not in rule.optional:
            known &= ~np.isnan(column.value)
    rows = np.flatnonzero(known)
    columns = [column.take(rows) for column in columns]
    value = np.asarray(rule.compute(*(column.value for column in columns)), float)
    good = np.isfinite(value) & (value > 0)
    if not good.all():
        rows, value = rows[good], value[good]
        columns = [column.take(good) for column in columns]
    return rows, columns, value


def _shifts(rule, columns, value):
    """(k, nodes) ln of the value at each node of the shared quantities, less ln of the value."""
    at_nodes = []
    for node in NODES:
        inputs = [
            within(code, column.value + node[SHARED.index(code)] * column.u)
            if code in SHARED else column.value
            for code, column in zip(rule.reads, columns, strict=True)
        ]
        at_nodes.append(np.log(rule.compute(*inputs)) - np.log(value))
    return np.nan_to_num(np.stack(at_nodes, 1), nan=0.0, posinf=0.0, neginf=0.0)
