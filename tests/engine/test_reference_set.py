"""A reference set takes the place of the priors, and says so."""
from dataclasses import replace

import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.habits import LearnedHabit
from teardowns.engine.pipeline import assess
from teardowns.engine.reference_set import ReferenceSet, with_reference
from teardowns.engine.report import report
from tests.engine.make import WIDE, claim_table, evidence_table, watts

ID = "power/mass_per_watt"
BOOK = rulebook.load()
# 10 W at 50 g, where the prior says 16.6 W.
LEARNED = LearnedHabit("g", float(np.log(10.0)), 1.3, 0.2, 20, float(np.log(50.0)), 6.0, 20.0,
                       160.0)
SET = ReferenceSet("set3-0a1b2c3d", {ID: LEARNED})
REFERENCED = with_reference(BOOK, SET)


def unit(grams):
    return [*WIDE, ("mass_total", 1e-3 * grams, 1e-5)]


def judged(book, *grams):
    return assess(evidence_table(*(unit(each) for each in grams)),
                  claim_table(*([watts(10.0)] for _ in grams)), book)


def mass_line(book, grams):
    found = report(judged(book, grams), 0)["lines"]
    return next(line for line in found if line["id"] == ID)["ends"]["low"]


def test_the_line_comes_from_the_fit():
    assert mass_line(BOOK, 50)["value"] == pytest.approx(275**0.5)      # √(5 W · 55 W), the prior
    assert mass_line(REFERENCED, 50)["value"] == pytest.approx(10.0)


def test_its_spread_is_that_of_the_fit():
    # h = 1/20; t(0.975, 18) = 2.1009: 2.1009 · 0.2 · √1.05 / 1.96 = 0.21967
    assert mass_line(REFERENCED, 50)["u_ln"] == pytest.approx(0.21967, rel=1e-3)
    assert mass_line(BOOK, 50)["u_ln"] == pytest.approx(0.55, rel=1e-3)


def test_far_beyond_the_fitted_units_the_line_is_that_of_the_prior():
    assert mass_line(REFERENCED, 400) == mass_line(BOOK, 400)


def test_the_sets_version_stands_in_the_rulebooks():
    assert REFERENCED.version == f"{BOOK.version}+set3-0a1b2c3d"
    assert report(judged(REFERENCED, 50), 0)["rulebook"] == REFERENCED.version
    assert len(REFERENCED.version) <= 40


def test_the_source_names_the_units_the_range_and_the_set():
    source = REFERENCED[ID].source
    assert all(part in source for part in ("20 published", "20 to 160 g", "set3-0a1b2c3d"))
    assert BOOK[ID].source in source
    assert "10 W" in REFERENCED[ID].formula and "50 g" in REFERENCED[ID].formula


def test_every_other_rule_stays_as_it_is():
    for before, after in zip(BOOK.lines + BOOK.checks, REFERENCED.lines + REFERENCED.checks,
                             strict=True):
        assert (before is after) == (before.id != ID)


def test_no_set_changes_nothing():
    assert with_reference(BOOK, None) is BOOK


def test_an_empty_set_changes_the_version_alone():
    empty = with_reference(BOOK, ReferenceSet("set1-00000000"))
    assert empty.power == BOOK.power and empty.version.endswith("+set1-00000000")


@pytest.mark.parametrize("habits", [
    {"power/none_of_ours": LEARNED}, {ID: replace(LEARNED, unit="kg")},
    {"power/bulk_capacitor": LEARNED}], ids=["gone", "other unit", "no habit"])
def test_a_habit_that_fits_no_rule_is_not_used(habits):
    assert with_reference(BOOK, ReferenceSet("set1-00000000", habits)).power == BOOK.power


def test_one_unit_and_many_give_the_same_bits():
    grams = np.geomspace(5, 900, 40)
    many = judged(REFERENCED, *grams).judged
    for i in (0, 17, 39):
        one = judged(REFERENCED, grams[i]).judged
        assert one.plausibility.tobytes() == many.plausibility[[i]].tobytes()
        assert one.capability.tobytes() == many.capability[[i]].tobytes()
