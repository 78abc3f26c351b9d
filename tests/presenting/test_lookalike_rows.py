"""A pair of units that look alike, as a moderator sees it."""
from types import SimpleNamespace

from teardowns.models import BoardFamily, Lookalike, Unit
from teardowns.presenting.lookalike_rows import lookalike_row, why_text

CORE = ["marking/core", "EE16", "EE16", 2.0, ["component/core"], ["component/t1"]]
TURNS = ["size/primary_turns", "117 ± 5", "98 ± 4", 3.0, ["stacklayer/p"], ["stacklayer/p"]]


def pair(**fields):
    return Lookalike(**{"pk": 5, "first": Unit(pk=3, title="One"), "second": Unit(pk=12, title=""),
                        "score": 0.8251, "speaks_for": [CORE], "speaks_against": [TURNS]} | fields)


def member(unit, family, is_open=False):
    return SimpleNamespace(unit_id=unit, family_id=family.pk, family=family, is_open=is_open)


BOARD = BoardFamily(pk=1, name="Board HB-12", slug="board-hb-12")


def steps(members, **fields):
    return [(step.words, step.address) for step in lookalike_row(pair(**fields), members).steps]


def test_its_reasons_lead_to_the_rows_of_both_units():
    row = lookalike_row(pair(), [])
    assert (row.score, row.short_for, row.short_against) == ("0.83", "core", "primary turns")
    assert 'href="/units/3/#component-core"' in row.speaks_for[0]
    assert 'href="/units/12/#component-t1"' in row.speaks_for[0]
    assert "117 ± 5 in unit 3, 98 ± 4 in unit 12" in row.speaks_against[0]
    assert [side.title for side in row.sides] == ["One", "unit 12"]


def test_without_a_family_one_is_opened_for_them():
    assert steps([]) == [("Open a family for them", "/families/open/?alike=5")]


def test_the_other_is_proposed_for_the_family_of_one():
    assert steps([member(3, BOARD)]) == [
        ("Propose unit 12 for Board HB-12", "/families/board-hb-12/propose/?unit=12&alike=5")]


def test_both_are_proposed_for_a_family_that_was_opened_for_them():
    assert [words for words, _ in steps([], family=BOARD)] == [
        "Propose unit 3 for Board HB-12", "Propose unit 12 for Board HB-12"]


def test_who_waits_already_is_not_proposed_again():
    waiting = [member(3, BOARD), member(12, BOARD, is_open=True)]
    assert steps(waiting) == []
    assert lookalike_row(pair(), waiting).second.families == ["Board HB-12 (proposed)"]


def test_the_reason_of_a_proposal_names_rows_for_and_against():
    text = why_text(pair())
    assert "Core marked EE16 in both. (3/component/core, 12/component/t1)" in text
    assert text.index("For one board:") < text.index("Against it:") < text.index("117 ± 5")
    assert "Nothing was found against it" in why_text(pair(speaks_against=[]))
