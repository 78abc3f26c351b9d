"""Effort: whatever a rule reads can be asked for at the bench."""
import pytest

from teardowns.engine import rulebook
from teardowns.engine.effort import (
    EFFORT,
    NON_DESTRUCTIVE,
    POWERED,
    PREPARATION,
    STAGES,
    TOOLS,
    minutes_for,
    stage_of,
)
from teardowns.engine.quantities import QUANTITIES

BOOK = rulebook.load()
RULES = pytest.mark.parametrize("rule", BOOK.lines + BOOK.checks, ids=lambda rule: rule.id)
CODES = pytest.mark.parametrize("code", EFFORT)


@RULES
def test_whatever_a_rule_reads_has_its_effort(rule):
    assert set(rule.reads) & set(QUANTITIES) <= set(EFFORT)


@CODES
def test_an_effort_takes_time_a_known_tool_and_a_known_stage(code):
    effort = EFFORT[code]
    assert code in QUANTITIES and effort.minutes > 0
    assert effort.stage in STAGES and effort.tool in TOOLS


@CODES
def test_a_typical_reading_can_exist(code):
    effort, quantity = EFFORT[code], QUANTITIES[code]
    assert quantity.low <= effort.typical <= quantity.high
    assert 0 <= effort.spread <= 0.2


@CODES
def test_a_flag_is_found_or_not_and_without_spread(code):
    if QUANTITIES[code].is_flag:
        assert EFFORT[code].typical in (0, 1) and EFFORT[code].spread == 0


def test_what_destroys_nothing_comes_before_what_does():
    assert STAGES[:len(NON_DESTRUCTIVE)] == NON_DESTRUCTIVE
    assert set(PREPARATION) == set(STAGES) and set(TOOLS) >= POWERED


def test_the_stage_of_several_readings_is_that_of_the_deepest():
    assert stage_of(["mass_total", "primary_turns", "fuse_rating"]) == "unwound"
    assert stage_of([]) == "outside"


def test_minutes_are_those_of_the_readings_and_of_getting_there():
    # From outside: 1 for the fuse's marking and 10 to open the case.
    assert minutes_for(["fuse_rating"], "outside") == 11
    assert minutes_for(["fuse_rating"], "opened") == minutes_for(["fuse_rating"], "unwound") == 1
    # 2 for the wire, 10 + 8 + 25 until it lies bare.
    assert minutes_for(["primary_wire_diameter"], "outside") == 45
