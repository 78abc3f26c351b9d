"""A plugin of pytest: the tests below tests/access/ once for each line of access taken away.

A test that fails then has noticed the line, which is what it is for, so the run counts it as
passed. Each test first runs with every line in place: it has to pass, and tells which functions it
asks; lines of others, and lines that were noticed before, are skipped.
"""
from __future__ import annotations

import sys
from contextlib import contextmanager
from functools import cache
from pathlib import Path

import pytest

ROOM = str(Path("teardowns", "access"))
noticed: dict[str, str] = {}       # by name of the mutant: the first test that failed
asked: set[str] = set()            # functions of access that the test at hand calls


@pytest.fixture(autouse=True)
def taken_away():
    """The line that a test goes without; see pytest_generate_tests."""


@pytest.hookimpl(trylast=True)     # so that all lines follow each case of a test
def pytest_generate_tests(metafunc):
    if "tests/access/" in metafunc.definition.nodeid:
        metafunc.parametrize("taken_away", [None, *_lines()], indirect=True, ids=_name)


@cache
def _lines():
    from tests.core.policy_mutants import chosen  # Django is set up by now

    return [mutant for mutant in chosen() if mutant.function]


def _name(mutant):
    return mutant.name if mutant else "as it is"


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item):
    mutant = _mutant(item)
    if mutant and (mutant.name in noticed or mutant.function not in asked):
        pytest.skip("It cannot notice, or need not.")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item):
    mutant = _mutant(item)
    with mutant.applied() if mutant else _noting():
        return (yield)


@contextmanager
def _noting():
    asked.clear()
    sys.setprofile(_note)
    try:
        yield
    finally:
        sys.setprofile(None)


def _note(frame, event, _):
    if event == "call" and ROOM in frame.f_code.co_filename:
        asked.add(frame.f_code.co_name)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item):
    report = yield
    mutant = _mutant(item)
    if mutant and report.failed:
        noticed[mutant.name] = item.originalname
        report.outcome = "passed"
    return report


def _mutant(item):
    return item.callspec.params.get("taken_away") if hasattr(item, "callspec") else None
