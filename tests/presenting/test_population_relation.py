"""Mass against power and capability against claim, in picture, words and rows."""
import numpy as np
import pytest

from teardowns.populations.band import Band
from teardowns.presenting.population_relation import (
    claim_picture,
    claim_relation,
    mass_picture,
    mass_relation,
)
from tests.presenting.population import NAMES, everybody, numbers, weighed


def of_mass(found, this=None):
    return mass_picture(mass_relation(found, everybody(found)), found, NAMES, this)


def of_claims(found, this=None):
    return claim_picture(claim_relation(found, everybody(found)), found, NAMES, this)


def claims(claimed, capability, measured=(), high=()):
    return numbers(claimed_power=claimed, capability=capability,
                   measured_power=measured or [np.nan] * len(claimed),
                   capability_high=high or capability, capability_low=capability)


def test_enough_units_have_a_band_that_is_drawn_and_told():
    picture = of_mass(weighed())
    assert 'class="band"' in picture.drawing and "the band reaches from" in picture.says[0]
    assert picture.says[1] == "None of 24 units lies outside of it."
    assert "band" in [one.mark for one in picture.legend]


@pytest.mark.parametrize("n, why", [
    (5, "it takes 12 units, and 5 are known"), (1, "it takes 12 units, and 1 is known")])
def test_few_units_have_no_band_and_the_page_says_why(n, why):
    picture = of_mass(weighed(n))
    assert picture.says == [f"No band is drawn: {why}."] and "band" not in picture.drawing
    assert len(picture.cells(0)) == len(picture.heads) == 2


def test_units_of_one_size_have_no_band_and_the_page_says_why():
    alike = numbers(mass=[0.05] * 20, measured_power=[10.0] * 20)
    assert "weighs less than 5 times the lightest" in of_mass(alike).says[0]


def test_mass_that_brings_no_power_has_no_band_and_the_page_says_why():
    mass = np.geomspace(0.02, 0.2, 20)
    assert "deliver no more power" in of_mass(numbers(mass=mass, measured_power=1 / mass)).says[0]


def test_a_row_says_where_its_unit_lies():
    found = weighed()
    found.table[23, 4] /= 10                   # the heaviest delivers a tenth
    relation = mass_relation(found, everybody(found))
    cells = of_mass(found).cells(23)
    middle = relation.band.line(np.array([200.0]))[0]
    # 200 W/kg · 0.2 kg · 1.2 / 10 = 4.8 W
    assert cells[:2] == ["200\u202fg", "4.80\u202fW"] and isinstance(relation.band, Band)
    assert cells[3] == f"below, × {4.8 / middle:.2f} its middle"


def test_a_unit_outside_of_the_fit_is_told_no_band():
    found = weighed()
    light = mass_relation(found, found["mass"] > 0.03)
    assert mass_picture(light, found, NAMES, 0).cells(0)[2] == "no band at this mass"


def test_many_units_are_cells_with_a_tint_for_each_count():
    picture = of_mass(weighed(600))
    assert picture.drawing.count("<a ") <= 80 and 'class="ink0"' in picture.drawing
    assert any(one.mark == "ink0" and "unit" in one.words for one in picture.legend)
    assert picture.says[-1].startswith("Cells are inked") and "stand out" in picture.says[-1]


def test_many_units_without_a_band_have_no_points_and_nothing_is_said_of_any():
    picture = of_mass(numbers(mass=np.linspace(0.05, 0.06, 400), measured_power=[10.0] * 400))
    assert "<a " not in picture.drawing and "stand out" not in picture.says[-1]
    assert "pt" not in [one.mark for one in picture.legend]


def test_this_unit_is_ringed_only_where_both_numbers_are_known():
    found = weighed()
    assert 'class="this"' in of_mass(found, 3).drawing
    found.table[3, 4] = np.nan
    assert 'class="this"' not in of_mass(found, 3).drawing


def test_how_many_lie_below_their_claim_is_counted_apart_from_how_many_surely_do():
    picture = of_claims(claims([10, 20, 30], [11, 15, 20], high=[12, 21, 25]))
    assert "The median of 2 of 3 units lies below the line, of 1 the whole" in picture.says[0]


def test_measured_and_estimated_units_are_told_apart():
    picture = of_claims(claims([10, 20], [11, 15], measured=[11, np.nan]))
    assert picture.drawing.count('class="pt"') == picture.drawing.count('class="pt-o"') == 1
    assert picture.says[1] == "Of 1 unit the power was measured."
    assert (picture.cells(0)[4], picture.cells(1)[4]) == ("a load", "its parts")


def test_a_claim_stands_as_it_is_printed_beside_its_capability():
    cells = of_claims(claims([22.5], [15.0])).cells(0)
    assert cells[:2] == ["22.5\u202fW", "15.0\u202fW"] and cells[3] == "× 1.5"


def test_the_line_of_equal_values_is_drawn_and_this_unit_has_its_interval():
    drawing = of_claims(claims([10, 20], [11, 15]), this=1).drawing
    assert "capability = claim" in drawing and 'class="this-w"' in drawing
