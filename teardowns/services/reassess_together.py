"""Several processes of this machine assess all units, each in ranges of its own.

A process ends after the slice that it has in hand when the one that started it is gone.
"""
from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from typing import Any

from django.db import connections

from .reassess_publications import SLICE, ranges_after, reassess_slice

BLOCK = 10 * SLICE      # units between two words about how far it came

Range = tuple[int, int]                    # after this unit, until that one
_of_parent: list[Any] = []                 # held, so that nothing closes it


class BrokeOff(Exception):
    """A process ended before its work was done."""


def reassess_together(after_pk: int, units: int, processes: int) -> Iterator[int]:
    """The last unit up to which all are done, whenever that moves on.

    units : how many there are
    """
    ranges = ranges_after(after_pk, max(1, units // BLOCK, processes))
    done, reached = set(), 0
    for number in _one_by_one(ranges) if processes == 1 else _side_by_side(ranges, processes):
        done.add(number)
        before = reached
        while reached in done:
            reached += 1
        if reached > before:
            yield ranges[reached - 1][1]


def _one_by_one(ranges: Sequence[Range]) -> Iterator[int]:
    for number, each in enumerate(ranges):
        _reassess(each)
        yield number


def _side_by_side(ranges: Sequence[Range], processes: int) -> Iterator[int]:
    """The places of ranges as they are finished, in whatever order."""
    connections.close_all()                # each process opens its own
    context = get_context("fork")
    ends: dict[Any, Any] = {}
    for first in range(processes):
        ours, theirs = context.Pipe(duplex=False)
        process = context.Process(target=_work, args=(ranges, first, processes, theirs),
                                  daemon=True)
        process.start()
        theirs.close()
        ends[ours] = process
    try:
        while ends:
            ready: list[Any] = wait([*ends])
            for end in ready:
                try:
                    yield end.recv()
                except EOFError:
                    _end_of(ends.pop(end))
    finally:
        for process in ends.values():      # in the middle of a slice: it is as if not begun
            process.terminate()
            process.join()


def _end_of(process) -> None:
    process.join()
    if process.exitcode:
        raise BrokeOff


def _work(ranges: Sequence[Range], first: int, step: int, told: Connection) -> None:
    parent = os.getppid()
    _leave_inherited()
    for number in range(first, len(ranges), step):
        _reassess(ranges[number], parent)
        told.send(number)
    told.close()
    connections.close_all()


def _leave_inherited() -> None:
    """A connection that was open when this process was forked is its parent's: neither used here
    nor closed. (`close_all` there may have seen others: Django keeps them by task where a loop
    runs, as beside a browser in tests.)"""
    for each in connections.all(initialized_only=True):
        _of_parent.append(each.connection)
        each.connection = None


def _reassess(each: Range, parent: int | None = None) -> None:
    after, until = each
    last: int | None = after
    while last is not None:
        if parent is not None and os.getppid() != parent:
            os._exit(1)
        last = reassess_slice(last, SLICE, until)
