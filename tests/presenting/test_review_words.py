"""Words of reviewers, and what rests on a row."""
from datetime import UTC, datetime

from teardowns.models import Measurement
from teardowns.presenting.review_words import (
    NOTHING_RESTS,
    progress_told,
    rests_told,
    word_told,
)
from teardowns.reviewing.words import Word
from teardowns.services.review_rows import Said

MASS = Measurement(quantity="mass_total", value=0.05)


def said(decision, reason="", value=None, u=None, agrees=None):
    return Said(Word("measurement/m", 1, 2, decision, agrees, reason), "rolf",
                datetime(2026, 11, 26, tzinfo=UTC), value, u)


def test_a_confirmation_and_a_dispute():
    assert word_told(said("confirmed"), MASS) == "rolf confirmed it."
    assert word_told(said("disputed", "Blurred"), MASS, "You") == "You disputed it. Blurred"


def test_a_second_reading_has_its_interval_and_whether_it_agrees():
    # u = 0.6 g, so ± 1.2 g
    told = word_told(said("remeasured", "My scale", 0.0528, 0.0006, True), MASS)
    assert told == ("rolf measured it anew: 52.8\u202f±\u202f1.2\u202fg, agrees with the first. "
                    "My scale")


def test_a_reading_without_uncertainty_says_that_nobody_can_tell():
    assert "cannot be told" in word_told(said("remeasured", "", 0.0528), MASS)


def test_what_rests_on_a_row_stands_the_gravest_first_and_is_cut():
    entries = [{"kind": "finding", "title": "Loose metal", "level": "serious"},
               {"kind": "line", "title": "Bulk capacitor", "decibans": -36.2, "claim": "20V"},
               *[{"kind": "result", "title": f"Distance {n}", "grade": "meets", "on": ""}
                 for n in range(5)]]
    told = rests_told(entries)
    assert told[:2] == ["A serious finding: Loose metal",
                        "Bulk capacitor, which speaks against “20V” with 36\u202fdB"]
    assert told[-1] == "and 3 more" and len(told) == 5


def test_where_nothing_rests_on_it_that_is_said():
    assert rests_told([]) == [NOTHING_RESTS]


def test_progress_in_words():
    assert progress_told(17, 42) == "17 of 42 decided"
    assert progress_told(0, 0) == "Nothing is asked of you here"
