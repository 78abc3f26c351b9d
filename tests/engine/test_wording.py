import pytest

from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.wording import plain, rounded, sentence_case, shown

# How many of each one unit of the SI makes.
TYPED = {"MHz": 1e-6, "g": 1e3, "mm": 1e3, "mm²": 1e6, "mV": 1e3, "mA": 1e3, "mΩ": 1e3, "kΩ": 1e-3,
         "MΩ": 1e-6, "µF": 1e6, "nF": 1e9, "nH": 1e9, "mH": 1e3, "kHz": 1e-3,
         "µs": 1e6}


@pytest.mark.parametrize("value, text", [(2.25, "2.25"), (45.0, "45"), (19.98, "20"),
                                         (0.00123, "0.00123"), (0.0, "0"), (150.0, "150"),
                                         (1234.4, "1234"), (float("nan"), "unknown")])
def test_three_digits_without_trailing_zeros(value, text):
    assert rounded(value) == text


@pytest.mark.parametrize("code, value, text", [
    ("bulk_capacitance", 15e-6, "15 µF"), ("mass_total", 0.0462, "46.2 g"),
    ("core_effective_area", 20.1e-6, "20.1 mm²"), ("barrier_capacitance", 2.2e-9, "2.2 nF"),
    ("offered_voltage", 9.0, "9 V"), ("efficiency", 0.85, "0.85"),
    ("insulation_resistance", 2e8, "200 MΩ"), ("primary_turns", 85.0, "85"),
    ("isolated_feedback", 0.0, "not found"), ("isolated_feedback", 1.0, "found"),
])
def test_a_quantity_is_shown_in_the_unit_that_a_person_types(code, value, text):
    assert shown(code, value).replace("\u202f", " ") == text


def test_number_and_unit_stay_on_one_line():
    assert plain(2.25, "A") == "2.25\u202fA"


def test_a_sentence_begins_with_a_capital():
    assert sentence_case("load that was held") == "Load that was held" and sentence_case("") == ""


@pytest.mark.parametrize("quantity", [q for q in QUANTITIES.values() if not q.is_flag],
                         ids=lambda q: q.code)
def test_every_quantity_can_be_shown(quantity):
    unit = quantity.shown_in or quantity.unit
    value = 2.5 / TYPED.get(unit, 1.0)
    assert shown(quantity.code, value).split("\u202f") == ["2.5", unit][:1 + (unit != "1")]


def test_an_unknown_quantity_is_shown_as_unknown():
    assert shown("bulk_capacitance", float("nan")).startswith("unknown")
