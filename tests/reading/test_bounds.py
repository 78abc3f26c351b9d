"""Limits as people write them where an instrument is at the end of its scale."""
import pytest

from teardowns.reading.bounds import split_bound
from teardowns.reading.quantity import QuantityError, read_quantity

WRITTEN = [
    ("> 500 MΩ", "Ω", "above", 500e6), (">500M", "Ω", "above", 500e6),
    (">= 2G", "Ω", "at_least", 2e9), ("≥ 30 W", "W", "at_least", 30.0),
    ("< 0,1 W", "W", "below", 0.1), ("<10mW", "W", "below", 0.010),
    ("=< 75 mW", "W", "at_most", 0.075), ("less than 10 mW", "W", "below", 0.010),
    ("At least 500 MΩ", "Ω", "at_least", 500e6), ("höchstens 0,1 W", "W", "at_most", 0.1),
    ("> −5 °C", "°C", "above", -5.0),
]


@pytest.mark.parametrize(("text", "unit", "kind", "limit"), WRITTEN)
def test_a_limit_is_read_with_its_side(text, unit, kind, limit):
    reading = read_quantity(text, unit, takes_bounds=True)
    assert (reading.bound_kind, reading.uncertainty) == (kind, None)
    assert reading.value == pytest.approx(limit, rel=1e-12)


def test_a_bare_number_of_a_limit_takes_the_unit_of_the_field():
    assert read_quantity("> 500", "Ω", default_unit="MΩ", takes_bounds=True).value == 500e6


def test_a_value_is_no_limit():
    assert split_bound("500 MΩ") == ("", "500 MΩ")
    assert read_quantity("500 MΩ", "Ω", takes_bounds=True).bound_kind == ""


@pytest.mark.parametrize("text", ["> 500 MΩ", "less than 10 mW", "≥ 30 W"])
def test_where_a_value_is_asked_for_a_limit_is_refused_with_the_remedy(text):
    with pytest.raises(QuantityError, match="is a limit, and a value is asked for here: write the"):
        read_quantity(text, text[-1])


def test_a_limit_has_no_uncertainty():
    for text in ("> 500 ± 5 MΩ", "> 500(5) MΩ"):
        with pytest.raises(QuantityError, match="leave the ± out"):
            read_quantity(text, "Ω", takes_bounds=True)


@pytest.mark.parametrize("text", ["OL", "0L", "o.L"])
def test_what_a_meter_shows_beyond_its_scale_is_asked_for_as_a_limit(text):
    with pytest.raises(QuantityError, match="write that end as a limit, for example “> 4.7 kΩ”"):
        read_quantity(text, "Ω", takes_bounds=True)


@pytest.mark.parametrize("text", [">", "> OL", ">> 5 W", "over there"])
def test_a_side_without_a_number_is_no_limit(text):
    with pytest.raises(QuantityError, match="cannot be read"):
        read_quantity(text, "W", takes_bounds=True)
