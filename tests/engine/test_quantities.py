"""The nomenclature: one code, one unit and one meaning for each quantity."""
import keyword
import re
from collections import Counter
from itertools import chain

import pytest

from teardowns.engine.quantities import CODES, GROUPS, QUANTITIES
from teardowns.engine.rule import CONDITIONS
from teardowns.engine.rulebook import FACTS

# Units of the SI and those accepted beside it, SI brochure (9th edition), tables 2 to 4.
UNITS = {"V", "A", "W", "F", "H", "T", "Ω", "Hz", "m", "m²", "kg", "°C", "s", "VA",
         "dBµV", "1"}
# Prefixes, table 7; a kilogram takes its prefixes from the gram.
PREFIXED = r"[nµmkM]"
by_code = pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=lambda q: q.code)


@by_code
def test_its_code_can_name_a_parameter_a_column_and_a_field(quantity):
    assert re.fullmatch(r"[a-z][a-z0-9]*(_[a-z0-9]+)*", quantity.code)
    assert not keyword.iskeyword(quantity.code)
    assert QUANTITIES[quantity.code] is quantity


@by_code
def test_it_has_a_unit_a_label_and_a_meaning(quantity):
    assert quantity.unit in UNITS
    assert quantity.label[:1].isupper() and not quantity.label.endswith(".")
    assert quantity.meaning.endswith(".")


@by_code
def test_what_can_exist_is_a_range(quantity):
    assert quantity.low < quantity.high


@by_code
def test_the_unit_that_a_person_types_is_the_si_unit_with_a_prefix(quantity):
    base = "g" if quantity.unit == "kg" else quantity.unit
    assert re.fullmatch(rf"({PREFIXED}?{re.escape(base)})?", quantity.shown_in)


@by_code
def test_several_observations_become_one_in_a_known_way(quantity):
    assert quantity.pooling in {"mean", "highest", "lowest", "flag"}


FLAGS = [quantity for quantity in QUANTITIES.values() if quantity.is_flag]


@pytest.mark.parametrize("flag", FLAGS, ids=lambda q: q.code)
def test_a_flag_is_found_or_not_found(flag):
    assert (flag.low, flag.high, flag.unit, flag.shown_in) == (0.0, 1.0, "1", "")


def test_there_are_flags_and_a_count_of_0_to_2_is_none():
    assert "isolated_feedback" in {flag.code for flag in FLAGS}
    assert not QUANTITIES["photographed_sides"].is_flag


def test_each_code_and_each_label_stands_once_in_one_group():
    every = list(chain.from_iterable(GROUPS.values()))
    for count in (Counter(q.code for q in every), Counter(q.label for q in every)):
        assert set(count.values()) == {1}
    assert tuple(q.code for q in every) == CODES


def test_no_quantity_bears_the_name_of_a_condition_or_of_a_part_of_a_claim():
    assert not set(CODES) & CONDITIONS.union(*FACTS.values())


@pytest.mark.parametrize("code", ["efficiency", "average_efficiency"])
def test_nothing_gives_more_than_it_takes(code):
    assert QUANTITIES[code].low > 0 and QUANTITIES[code].high < 1


@pytest.mark.parametrize("code, pooling", [
    # A bound counts at its tightest, a test at the most that was shown.
    ("sustained_power", "highest"), ("failed_power", "lowest"), ("offered_voltage", "highest"),
    ("refused_voltage", "lowest"), ("output_capacitor_rating", "lowest"),
])
def test_tests_and_ratings_count_by_their_extremes(code, pooling):
    assert QUANTITIES[code].pooling == pooling
