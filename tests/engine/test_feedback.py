import pytest

from teardowns.engine.feedback import feedback
from teardowns.engine.physics.feedback import FLAGS, TABLE
from tests.engine.make import WIDE, judge


def said(flags, *more):
    rows = [(name, float(flag), 0.0) for name, flag in zip(FLAGS, flags, strict=True)
            if flag is not None]
    frame = judge([*WIDE, *rows, *more, ("photographed_sides", 2.0, 0.0)], []).frame
    return feedback(frame, 0)


@pytest.mark.parametrize("arrangement", TABLE, ids=lambda a: a.row)
def test_each_row_is_named_with_its_note(arrangement):
    found = said(arrangement.flags)
    assert (found["row"], found["note"]) == (arrangement.row, arrangement.note)
    if arrangement.switchable == "safety defect":
        assert found["switchable"] is None
    else:
        assert (found["switchable"] > 0.5) is (arrangement.switchable == "yes")


def test_a_part_across_the_barrier_is_flagged_in_every_row():
    found = said((1, 0, 0, 1, 1, 0, 1), ("feedback_bridges_barrier", 1.0, 0.0))
    assert found["switchable"] is None and "safety defect" in found["note"]


def test_nothing_looked_at_says_nothing():
    assert said((None,) * 7) == {"row": None, "switchable": None, "note": ""}


def test_half_of_the_facts_leave_the_row_open():
    found = said((1, None, None, 1, None, None, None))
    assert found["row"] is None and 0 < found["switchable"] < 1 and found["note"]
