"""A proposal in words: before and after of each kind, and a history row by row."""
import pytest

from teardowns.models import Change, Part, PartLimit
from teardowns.presenting.part_history import part_history
from teardowns.presenting.part_sheet import differences, proposal_line
from teardowns.services.propose_part import propose_part
from tests.library import POWER, SHEET, SOURCE, changed_limit, listed, new_limit

pytestmark = pytest.mark.django_db


def told(proposal):
    return [(one.before, one.after) for one in differences(proposal)]


def test_a_limit_stands_beside_what_it_was(alice, mona):
    part = listed(mona)
    source = "PZ6318 data sheet, rev. 3, table 1, page 4"
    assert told(changed_limit(alice, part)) == [("12\u202fW", "13\u202fW"), (SHEET, source)]
    assert told(new_limit(alice, part)) == [("none", "13\u202fW"), ("none", source)]


def test_a_limit_taken_out_leaves_none(alice, mona):
    part = listed(mona)
    made = propose_part(proposer=alice, change=Change.LIMIT_REMOVED, part=part, why="Not its.",
                        limit=part.limits.get(), seen=1)
    assert told(made) == [("12\u202fW", "taken out"), (SHEET, "none")]


def test_a_new_part_stands_beside_nothing(alice):
    made = propose_part(proposer=alice, change=Change.PART, why="Seen.", marking="KR905",
                        function="controller", quantity=POWER, value=9.0, **SOURCE)
    assert told(made)[0] == ("none", "KR905") and ("none", "9\u202fW") in told(made)
    assert proposal_line(made).title == "a new part: KR905"


def test_who_takes_its_place_is_named(alice, mona):
    part, newer = listed(mona), listed(mona, "PZ6319", None)
    made = propose_part(proposer=alice, change=Change.SUPERSEDED, part=part, why="Notice.",
                        successor=newer)
    assert told(made) == [("none", "PZ6319")]


def test_a_history_tells_each_change_once_the_newest_first(mona):
    part = listed(mona)
    limit = part.limits.get()
    limit.value = 13.0
    limit.save()
    limit.save()
    limit.delete()
    part.package = "SOP-8"
    part.save()
    events = part_history(part.history.order_by("history_id"),
                          PartLimit.history.order_by("history_id"), ())
    assert [event.told[0].partition(":")[2] or event.told[0] for event in events] == [
        " blank, now “SOP-8”.", f" 13\u202fW taken out, which was cited to {SHEET}.",
        f" 12\u202fW, now 13\u202fW; cited to {SHEET}.", f" 12\u202fW, cited to {SHEET}.",
        "The entry was made."]
    assert Part.objects.get().history.count() == 2
