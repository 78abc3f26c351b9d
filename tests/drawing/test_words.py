import pytest

from teardowns.drawing.words import designators, name_of, value_of, with_doubt

from .units import demo, document


@pytest.mark.parametrize(("text", "count", "names"), [
    ("C1", 1, ["C1"]), ("C1, C2", 2, ["C1", "C2"]), ("D1 to D4", 4, ["D1", "D2", "D3", "D4"]),
    ("C11, C12", 3, ["C11", "C12", ""]), ("", 1, [""]),
])
def test_a_designator_names_each_piece(text, count, names):
    assert designators({"designator": text, "count": count}) == names


@pytest.mark.parametrize(("kind", "words"), [
    ("interval", "7.4 ± 0.3 mm"), ("standard", "7.4 ± 0.6 mm"), ("", "7.4 mm"),
    ("tolerance", "7.4 ± 0.3 mm"),      # 2 · 0.3 / √3 = 0.35
])
def test_a_length_carries_its_expanded_uncertainty(kind, words):
    assert with_doubt({"value": 0.0074, "uncertainty": 3e-4, "uncertainty_kind": kind}) == words


def test_a_fine_uncertainty_gets_another_digit():
    assert with_doubt({"value": 7e-4, "uncertainty": 5e-5,
                       "uncertainty_kind": "interval"}) == "0.70 ± 0.05 mm"


def test_a_unit_without_maker_and_model_goes_by_its_title():
    assert name_of(document()) == "Test unit"


def test_what_was_looked_for_and_not_found_has_no_value():
    assert value_of(demo("09"), "case_clipped") is None


def test_a_disputed_measurement_is_not_drawn():
    row = {"key": "m", "quantity": "mass_total", "value": 0.1, "review_state": "disputed"}
    assert value_of(document(measurements=[row]), "mass_total") is None
