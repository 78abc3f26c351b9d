import pytest

from teardowns.engine.wording import plain, rounded, sentence_case, shown


@pytest.mark.parametrize("value, text", [(2.25, "2.25"), (45.0, "45"), (19.98, "20"),
                                         (0.00123, "0.00123"), (0.0, "0"), (150.0, "150"),
                                         (1234.4, "1234"), (float("nan"), "unknown")])
def test_three_digits_without_trailing_zeros(value, text):
    assert rounded(value) == text


@pytest.mark.parametrize("code, value, text", [
    ("bulk_capacitance", 15e-6, "15 µF"), ("mass_total", 0.0462, "46.2 g"),
    ("core_effective_area", 20.1e-6, "20.1 mm²"), ("barrier_capacitance", 2.2e-9, "2.2 nF"),
    ("offered_voltage", 9.0, "9 V"), ("efficiency", 0.85, "0.85"),
    ("isolated_feedback", 0.0, "not found"), ("isolated_feedback", 1.0, "found"),
])
def test_a_quantity_is_shown_in_the_unit_that_a_person_types(code, value, text):
    assert shown(code, value).replace("\u202f", " ") == text


def test_number_and_unit_stay_on_one_line():
    assert plain(2.25, "A") == "2.25\u202fA"


def test_a_sentence_begins_with_a_capital():
    assert sentence_case("load that was held") == "Load that was held" and sentence_case("") == ""
