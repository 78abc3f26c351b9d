"""Every rule about safety, asked of every subject: whole columns, one unit like many."""
import os
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from functools import cache

import numpy as np

from .columns import Frame
from .grading import COVERAGE, Graded
from .quantities import QUANTITIES
from .requirements.plugs import CODES
from .rule import Rule
from .subjects import COLUMNS, TEXT, Subjects, SubjectTable
from .winding_stack import adjacencies

CHUNK = 8192        # units at a time, so that the columns stay in the processor's cache


@np.errstate(invalid="ignore")                    # unknown is NaN, not a warning
def with_derived(subjects: Subjects, frame: Frame) -> Subjects:
    """The subjects, with what the layers say of each primary–secondary neighbourhood, and with
    each size of the plug that was measured. A unit of which nothing is known is a subject too."""
    return Subjects({"unit": SubjectTable.blank("unit", frame.size), **subjects.tables,
                     "adjacency": adjacencies(subjects["layer"]),
                     "dimension": dimensions(frame)})


def dimensions(frame: Frame) -> SubjectTable:
    """One subject for each size of the plug that is known, sorted by unit."""
    sizes = [(code, frame.columns[code]) for code in CODES if code in frame.columns]
    known = [np.flatnonzero(~np.isnan(column.value)) for _, column in sizes]
    row = np.concatenate([np.zeros(0, int), *known])
    code = np.repeat([code for code, _ in sizes], [len(rows) for rows in known]) if sizes else row
    parts = {"code": np.array(code, dtype=str)} | {
        name: np.concatenate([np.zeros(0), *(of(column)[rows] for (_, column), rows in
                                             zip(sizes, known, strict=True))])
        for name, of in (("size", lambda column: column.value),
                         ("size_u", lambda column: COVERAGE * column.u))}
    label = np.array([QUANTITIES[one].label for one in parts["code"].tolist()], dtype=object)
    table = SubjectTable("dimension", row, parts, label, np.full(len(row), -1))
    return table.take(np.argsort(row, kind="stable"))


@np.errstate(invalid="ignore", divide="ignore", over="ignore", under="ignore")
def grade_units(rules: tuple[Rule, ...], frame: Frame,
                subjects: Subjects) -> Mapping[str, Graded]:
    """By id of a rule, what it says of its subjects, in the order of the subject's table.

    frame : (n,) pooled evidence, without any default: what nobody recorded is NaN
    subjects : with the derived ones
    """
    starts = range(0, max(frame.size, 1), CHUNK)

    def of_chunk(start):
        stop = min(start + CHUNK, frame.size)
        part = frame.take(np.arange(start, stop))
        mine = subjects.of_units(start, stop)
        return {rule.id: grade(rule, part, mine) for rule in rules}

    if len(starts) == 1:
        return of_chunk(0)
    with ThreadPoolExecutor(min(os.cpu_count() or 1, 8)) as pool:      # numpy frees the lock
        done = list(pool.map(of_chunk, starts))
    # Rule by rule, so that never two copies of them all are there.
    return {rule.id: Graded.joined([part.pop(rule.id) for part in done]) for rule in rules}


def grade(rule: Rule, frame: Frame, subjects: Subjects) -> Graded:
    """One rule over its subjects."""
    table = subjects[rule.on]
    if not len(table.row):
        return _of_none(rule.compute, rule.on, rule.reads)
    return rule.compute(*(_read(name, table, frame, subjects["unit"]) for name in rule.reads))


@cache
def _of_none(compute, on, reads):
    """What a rule says of no subject at all: always the same."""
    columns = COLUMNS["unit"] | COLUMNS[on]
    return compute(*(np.zeros(0, str if name in columns and columns[name].kind == TEXT else float)
                     for name in reads))


def _read(name, table, frame, units):
    """(m,) one parameter, at each subject."""
    if name in table.columns:
        return table.columns[name]
    if name in COLUMNS["unit"]:
        return _of_unit(name, table, frame, units)
    if name.endswith("_u") and name.removesuffix("_u") in frame.columns:
        return COVERAGE * frame[name.removesuffix("_u")].u[table.row]
    return frame[name].value[table.row]


def _of_unit(name, table, frame, units):
    """A column of the unit at each subject; a unit without a row is not known of."""
    blank = "" if COLUMNS["unit"][name].kind == "text" else np.nan
    whole = np.full(frame.size, blank, units.columns[name].dtype)
    whole[units.row] = units.columns[name]
    return whole[table.row]
