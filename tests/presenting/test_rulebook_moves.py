"""What each rulebook moved."""
from datetime import UTC, datetime
from types import SimpleNamespace

from teardowns.presenting.rulebook_moves import NOT_JUDGED, rulebook_moves


class Version(SimpleNamespace):
    def __str__(self):
        return "version 2"


def change(rulebook="4+0a1b2c3d", words=(), levels=()):
    unit = SimpleNamespace(get_absolute_url=lambda: "/units/7/")
    return SimpleNamespace(
        publication=Version(unit=unit, title="Veltrice VQ-45"), rulebook=rulebook, words=words,
        levels=levels, was=SimpleNamespace(rulebook="3+11223344"),
        at=datetime(2026, 5, 6, tzinfo=UTC))


def test_units_stand_under_the_rulebook_that_moved_them():
    books = rulebook_moves([change("5+0"), change("4+0"), change("4+0")])
    assert [(book.rulebook, len(book.units)) for book in books] == [
        ("edition 5, 0", 1), ("edition 4, 0", 2)]
    assert books[0].units[0].since == "before: edition 3, 11223344; 2026-05-06"


def test_words_and_levels_are_told_with_both_sides():
    book, = rulebook_moves([change(words=[["5V⎓3A", "supported", "possible"]],
                                   levels=["", "serious"])])
    claim, level = book.units[0].moves
    assert claim.name == "“5V⎓3A”" and "supported" in claim.was and "possible" in claim.now
    assert (level.was, level.now) == ("no level", "serious")


def test_a_claim_that_is_not_judged_any_more_is_no_verdict():
    book, = rulebook_moves([change(words=[["5V⎓3A", "supported", ""]])])
    assert book.units[0].moves[0].now == NOT_JUDGED
