"""One line a version."""
from datetime import UTC, datetime
from types import SimpleNamespace

from teardowns.presenting.version_list import FIRST, NO_CLAIM, NO_LEVEL, version_rows

MONA = SimpleNamespace(get_username=lambda: "mona")
BOB = SimpleNamespace(get_username=lambda: "bob")


def version(number=1, note="", correction=None, **said):
    return SimpleNamespace(
        pk=number, number=number, moderator=MONA, note=note, correction=correction,
        published_at=datetime(2026, 4, number, tzinfo=UTC),
        get_absolute_url=lambda: f"/units/7/versions/{number}/",
        assessment=SimpleNamespace(**{"verdict": "supported", "claimed_power": 45.0, "risk": 0,
                                      "rulebook": "3+11223344"} | said))


def row_of(one):
    row, = version_rows(SimpleNamespace(pk=7, publication_id=2), [one])
    return row


def test_the_first_says_that_it_is_and_has_nothing_before_it():
    row = row_of(version())
    assert (row.why, row.since, row.is_newest) == (FIRST, "", False)
    assert row.published == "2026-04-01, by mona"


def test_a_later_one_says_whose_correction_it_came_of():
    row = row_of(version(2, correction=SimpleNamespace(reason="13 W", author=BOB)))
    assert (row.why, row.corrected_by, row.is_newest) == ("13 W", "bob", True)
    assert row.since == "/units/7/versions/2/against/1/"


def test_a_moderators_note_comes_before_the_reason():
    row = row_of(version(2, "As asked", SimpleNamespace(reason="13 W", author=BOB)))
    assert (row.why, row.corrected_by) == ("As asked", "bob")


def test_no_claim_and_no_level_are_said_and_are_no_pass():
    row = row_of(version(verdict="", claimed_power=None))
    assert (row.verdict, row.claimed, row.level, row.beside) == (NO_CLAIM, "", NO_LEVEL, "")


def test_a_level_never_stands_without_what_it_is():
    row = row_of(version(risk=4))
    assert row.level == "serious risk" and "illustration" in row.beside
