"""What the boards of a family show together, from rows as they are stored."""
from types import SimpleNamespace

from teardowns.models import FamilyPool
from teardowns.presenting.family_boards import BEING_WORKED_OUT, beside_by_unit, family_boards
from tests.presenting.test_sister_boards import LENT, NOW, TURNS, WAS, disagreement, publication


def test_a_family_s_pool_marks_what_differs_and_names_both():
    second = TURNS | {"unit": 27, "value": 21.0}
    pool = FamilyPool(wanted="a", digest="a", pooled=[TURNS, second],
                      disagreements=[disagreement(second=second)])
    shown = family_boards(pool)
    assert [one.origin.name for one in shown.pooled[0].readings] == [
        "unit 7, version 2", "unit 27, version 2"]
    assert shown.pooled[0].differs
    assert shown.disagreements[0].endswith("That speaks against one board in unit 7 and unit 27.")


def test_a_stale_pool_is_not_shown_and_that_is_said():
    shown = family_boards(FamilyPool(wanted="a", digest="b", pooled=[TURNS]))
    assert (shown.pooled, shown.note) == ([], BEING_WORKED_OUT)
    assert family_boards(None).note == ""


def test_beside_each_unit_of_a_family_stands_what_would_be_otherwise():
    moved = publication(inherited=[LENT], claims=[["claim/9", WAS, NOW]]).sister_report
    still = publication(inherited=[LENT]).sister_report
    stale = publication(inherited=[LENT], digest="b").sister_report
    reports = [SimpleNamespace(holds=one.holds, claims=one.claims, capability=one.capability,
                               inherited=one.inherited, publication=SimpleNamespace(unit_id=pk))
               for pk, one in enumerate((moved, still, stale))]
    assert beside_by_unit(reports) == {0: "possible, not no evidence (1 claim)",
                                       1: "no other word"}
