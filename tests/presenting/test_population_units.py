"""Numbers in print, and who is left out."""
import numpy as np

from teardowns.presenting.population_kinds import KINDS
from teardowns.presenting.population_units import grams, left_out, point, times, unknown_of
from tests.presenting.population import NAMES, everybody, numbers

UNKNOWN = np.nan


def test_numbers_keep_their_unit_and_unknown_ones_say_so():
    assert (grams(46.96), times(0.333), grams(UNKNOWN)) == ("47.0\u202fg", "× 0.33", "not known")


def test_what_is_unknown_is_counted_never_drawn_as_nothing():
    found = numbers(mass=[0.05, UNKNOWN, UNKNOWN], measured_power=[10, 10, UNKNOWN])
    assert left_out(KINDS["mass"], found, everybody(found)) == [
        "2 units were not weighed without cable", "1 unit had no power measured"]
    assert left_out(KINDS["mass"], found, np.array([True, False, False])) == []


def test_a_mass_of_nothing_is_not_known_but_a_distance_of_nothing_is():
    found = numbers(mass=[0.0], measured_power=[5.0], insulation_margin=[0.0])
    assert left_out(KINDS["mass"], found, everybody(found)) == [
        "1 unit was not weighed without cable"]
    assert left_out(KINDS["insulation"], found, everybody(found)) == []


def test_why_one_unit_is_not_drawn():
    found = numbers(mass=[0.05, UNKNOWN], measured_power=[UNKNOWN, 5])
    assert unknown_of(KINDS["mass"], found, 0) == ["had no power measured"]
    assert unknown_of(KINDS["mass"], found, 1) == ["was not weighed without cable"]


def test_a_point_is_told_by_its_title_and_leads_to_its_unit():
    found = numbers(mass=[0.05, 0.06])
    made = point(found, 1, 60.0, 2.0, "60 g", NAMES)
    assert (made.href, made.hint) == ("/units/2/", "Veltrice VQ-2: 60 g")


def test_a_long_title_is_told_shortened():
    found = numbers(mass=[0.05])
    assert point(found, 0, 60.0, 2.0, "60 g", {1: "x" * 200}).hint == f"{'x' * 59}…: 60 g"


def test_every_fact_that_a_picture_needs_can_be_said_of_one_and_of_many():
    for kind in KINDS.values():
        found = numbers(**{column: [UNKNOWN, UNKNOWN] for column in kind.needs})
        assert len(left_out(kind, found, everybody(found))) == len(kind.needs)
