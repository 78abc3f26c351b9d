"""What a plate prints of mains and efficiency; a listing speaks where the plate is silent."""
import pytest

from tests.exchange.observing.seen import seen, values


def rated(*claims, texts=()):
    return {"claims": [{"kind": "input"} | claim for claim in claims], "printed_texts": texts}


def test_the_rated_input_is_the_widest_that_the_plate_prints():
    lists = rated(
        {"voltage_low": 100.0, "voltage_high": 120.0, "current": 0.8, "frequency_low": 60.0},
        {"voltage_low": 200.0, "voltage_high": 240.0, "current": 0.5, "frequency_low": 50.0})
    assert values("rated_voltage_low", **lists) == [100.0]
    assert values("rated_voltage_high", **lists) == [240.0]
    assert values("rated_frequency", **lists) == [50.0]
    assert values("rated_input_current", **lists) == [0.8]
    assert seen("rated_voltage_low", **lists)[0].u == 0.0


def test_a_single_printed_voltage_is_both_ends():
    assert values("rated_voltage_high", **rated({"voltage_low": 230.0})) == [230.0]


def test_a_listing_speaks_of_the_mains_only_where_the_plate_is_silent():
    texts = [{"key": "plate", "source": "plate"}, {"key": "list", "source": "listing"}]
    listing = {"printed_text": "list", "voltage_low": 85.0}
    plate = {"printed_text": "plate", "voltage_low": 220.0}
    assert values("rated_voltage_low", **rated(listing, plate, texts=texts)) == [220.0]
    assert values("rated_voltage_low", **rated(listing, texts=texts)) == [85.0]


def test_a_misread_input_that_no_mains_has_is_left_out():
    assert values("rated_voltage_low", **rated({"voltage_low": 5.0})) == []


def level(*marks, **lists):
    return values("efficiency_level", claims=[{"kind": "mark", "mark": mark} for mark in marks],
                  **lists)


# The numerals of the International Efficiency Marking Protocol for external power supplies.
@pytest.mark.parametrize(("numeral", "number"), [("IV", 4.0), ("V", 5.0), ("VI", 6.0)])
def test_an_efficiency_mark_is_a_number(numeral, number):
    assert level("class_ii", f"efficiency_level:{numeral}") == [number]


def test_marks_that_differ_and_other_marks_decide_nothing():
    assert level("efficiency_level:V", "efficiency_level:VI") == []
    assert level("efficiency_level:VI", "efficiency_level:VI") == [6.0]
    assert level("efficiency_level:?", "class_ii") == []


def test_the_plate_s_mark_comes_before_the_listing_s():
    texts = [{"key": "plate", "source": "plate"}, {"key": "list", "source": "listing"}]
    marks = [{"kind": "mark", "mark": f"efficiency_level:{numeral}", "printed_text": text}
             for numeral, text in (("VI", "list"), ("V", "plate"))]
    assert values("efficiency_level", claims=marks, printed_texts=texts) == [5.0]
    assert values("efficiency_level", claims=marks[:1], printed_texts=texts) == [6.0]
