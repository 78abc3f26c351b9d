"""A population's page before it is rendered."""
import numpy as np
import pytest

from teardowns.populations.listed import ListedNumbers
from teardowns.presenting.population_kinds import KINDS, OPENED
from teardowns.presenting.population_sheet import (
    PAGE,
    Asked,
    find_population,
    population_sheet,
)
from tests.presenting.population import NAMES, everybody, numbers, weighed


def sheet(code, found, this=None, page=1, chosen=None):
    chosen = everybody(found) if chosen is None else chosen
    made = find_population(Asked(KINDS[code], found, chosen, this, page))
    return population_sheet(made, NAMES)


@pytest.mark.parametrize("code", KINDS)
def test_nobody_is_drawn_of_nobody(code):
    found = numbers(mass=[np.nan])
    made = sheet(code, found)
    assert made.is_empty and made.count == "0 units drawn" and made.lines == []
    assert made.left_out


@pytest.mark.parametrize("code", KINDS)
def test_no_units_at_all_are_no_error(code):
    assert sheet(code, ListedNumbers.of_rows([])).is_empty


def test_the_table_goes_on_where_its_page_ended():
    found = weighed(PAGE + 5)
    first, second = sheet("mass", found), sheet("mass", found, page=2)
    assert (len(first.lines), len(second.lines), first.pages) == (PAGE, 5, 2)
    assert not {one.pk for one in first.lines} & {one.pk for one in second.lines}
    assert sheet("mass", found, page=99).page == 2


def test_this_unit_stands_first_on_every_page():
    found = weighed(PAGE + 5)
    for page in (1, 2):
        lines = sheet("mass", found, this=4, page=page).lines
        assert lines[0].pk == 5 and lines[0].is_this
        assert [one.is_this for one in lines].count(True) == 1


def test_this_unit_outside_of_the_choice_is_marked_and_said_to_be():
    found = weighed()
    made = sheet("mass", found, this=0, chosen=np.arange(24) > 3)
    assert "outside of what you narrowed" in made.this_says and made.lines[0].pk == 1


def test_where_the_choice_leaves_nobody_this_unit_is_not_said_to_be_marked():
    made = sheet("mass", weighed(), this=0, chosen=np.zeros(24, bool))
    assert made.is_empty and made.this_says == "" and made.lines == []


def test_this_unit_with_an_unknown_fact_is_not_drawn_and_the_page_says_why():
    found = numbers(mass=[np.nan, 0.05], measured_power=[10, 10])
    made = sheet("mass", found, this=0)
    assert made.this_says == "This unit is not drawn: it was not weighed without cable."
    assert not any(one.is_this for one in made.lines)


def test_what_is_kept_of_all_units_is_forgotten_when_they_change():
    before, after = weighed(30), weighed(20)
    assert [sheet("mass", found).count for found in (before, after, before)] == [
        "30 units drawn", "20 units drawn", "30 units drawn"]
    assert sheet("mass", before, chosen=np.arange(30) < 5).count == "5 units drawn"


def test_so_is_what_is_kept_of_a_choice_and_another_marked_unit_is_another_picture():
    before, after = weighed(30), weighed(20)
    some = [sheet("mass", found, chosen=np.arange(len(found.pks)) < 5 + n).count
            for n in range(3) for found in (before, after, before)]
    assert some == [f"{number} units drawn" for number in (5, 5, 5, 6, 6, 6, 7, 7, 7)]
    marked = [sheet("mass", before, this=row, chosen=np.arange(30) < 5) for row in (1, 2, 1)]
    assert [one.lines[0].pk for one in marked] == [int(before.pks[row]) for row in (1, 2, 1)]


def test_points_are_spoken_of_where_there_are_any():
    alike = numbers(mass=np.linspace(0.05, 0.06, 400), measured_power=[10.0] * 400)
    assert sheet("mass", weighed()).says[-1].startswith("Each point leads to its unit")
    assert sheet("mass", alike).says[-1] == "The table below has the same units and numbers."


def test_titles_are_asked_for_what_is_printed_alone():
    found = weighed(600)
    made = find_population(Asked(KINDS["mass"], found, everybody(found), None, 1))
    assert len(made.pks) <= PAGE + 80


def test_it_is_said_that_opened_units_are_no_sample():
    assert sheet("mass", weighed()).opened == OPENED and "not a sample of what is sold" in OPENED
