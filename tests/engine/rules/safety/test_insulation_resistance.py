"""Insulation resistance at 500 V d.c."""
import pytest

from teardowns.engine import rulebook
from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_worse


# VDE 0701-0702 as a tester's manual prints it: 2 MΩ; a catalogue supply names more than 500 MΩ.
@pytest.mark.parametrize("more, expected", [
    ({"insulation_resistance": 1e6}, "falls short"),
    ({"insulation_resistance": 1e6, "touch_current": 0.1e-3, "touch_current_u": 1e-5},
     "cannot tell"),
    ({"insulation_resistance": 1e6, "touch_current": 2e-3, "touch_current_u": 1e-5},
     "falls short"),
    ({"insulation_resistance": 5e6}, "cannot tell"), ({"insulation_resistance": 5e8}, "meets"),
    ({}, None),
    # A tester whose scale ends, or begins, there: "> 500 MΩ", "< 0.1 MΩ".
    ({"insulation_resistance_at_least": 5e8}, "meets"),
    ({"insulation_resistance_at_least": 1e6}, "cannot tell"),
    ({"insulation_resistance_at_most": 1e5}, "falls short"),
    ({"insulation_resistance_at_most": 5e8}, "cannot tell"),
    ({"insulation_resistance_at_least": 5e8, "insulation_resistance_at_most": 1e5}, "cannot tell"),
    ({"insulation_resistance": 5e6, "insulation_resistance_at_least": 5e8}, "cannot tell"),
])
def test_grades(more, expected):
    assert grade_of("insulation_resistance", insulation_resistance_u=2e4, **more) == expected


def test_a_limit_is_never_told_as_the_value():
    reasons = rulebook.load()["safety/insulation_resistance"].reasons
    above, below = (asked("insulation_resistance", **{f"insulation_resistance_{side}": limit})
                    for side, limit in (("at_least", 5e8), ("at_most", 1e5)))
    assert "lies above it" in reasons[above.why[0]] and "lies below it" in reasons[below.why[0]]


def test_a_higher_resistance_is_never_worse():
    more_is_never_worse("insulation_resistance", "insulation_resistance", 2.0)
