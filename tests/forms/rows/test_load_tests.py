from types import SimpleNamespace

import pytest

from teardowns.forms.rows.load_tests import remarks_of, with_current
from tests.forms.sent import checked, messages, only_change

pytestmark = pytest.mark.django_db


def load(unit, **typed):
    return checked(unit, "load", {f"loads-0-{name}": text for name, text in typed.items()})


@pytest.mark.parametrize("result, duration, code", [
    ("passed", "30 min", "sustained_power"), ("passed", "600 s", "sustained_power"),
    ("passed", "599 s", "peak_power"), ("passed", "10 s", "peak_power"),
    ("failed", "", "failed_power"),
])
def test_what_happened_decides_the_quantity(unit, result, duration, code):
    stored = only_change(load(unit, result=result, value="12 W", duration=duration))
    assert (stored["quantity"], stored["value"]) == (code, 12.0)


def test_voltage_times_current_is_the_power(unit):
    stored = only_change(load(unit, result="failed", output_voltage="5", current="2.4 A ± 1 %"))
    assert stored["value"] == pytest.approx(12.0)               # 5 V × 2.4 A
    assert stored["uncertainty"] == pytest.approx(0.12)         # 1 % of 12 W
    assert stored["output_voltage"] == 5.0


def test_a_power_that_contradicts_voltage_and_current_is_refused(unit):
    said = messages(load(unit, result="failed", value="13.1", output_voltage="5", current="2"))
    assert "5 V × 2 A is 10 W, not 13.1 W" in said


@pytest.mark.parametrize("typed, remedy", [
    ({"value": "12"}, "whether the load was held"),
    ({"result": "failed"}, "output power, or both voltage and current"),
    ({"result": "passed", "value": "12"}, "needs its time"),
    ({"result": "passed", "value": "12", "duration": "9 s"}, "Less than ten seconds"),
    ({"result": "failed", "value": "0"}, "outside what can exist"),
])
def test_what_is_missing_is_named(unit, typed, remedy):
    assert remedy in messages(load(unit, **typed))


def test_an_untouched_row_says_nothing(unit):
    assert load(unit).row_changes() == []


def test_the_current_beside_a_power_is_kept_in_the_note_as_typed(unit):
    stored = only_change(load(unit, result="failed", value="31 W", output_voltage="9",
                              current="3,44 A", note="two resistors in parallel"))
    assert stored["value"] == 31.0
    assert stored["note"] == "two resistors in parallel\nI_out = 3,44 A"


@pytest.mark.parametrize("note, typed, kept", [
    ("", "", ""), ("as it was", " ", "as it was"), ("", "2 A", "I_out = 2 A"),
    ("a\nI_out = 2 A\nb", "3 A", "a\nI_out = 3 A\nb"),
])
def test_a_current_typed_anew_takes_the_place_of_the_one_before(note, typed, kept):
    assert with_current(note, typed) == kept


@pytest.mark.parametrize("quantity, output_voltage, mains_voltage, words", [
    ("sustained_power", 9.0, 230.0, []), ("sustained_power", None, None, ["high end"]),
    ("failed_power", 9.0, 230.0, []), ("failed_power", None, None, ["voltage set", "low end"]),
    ("peak_power", 9.0, 230.0, ["short-time"]),
])
def test_a_load_that_counts_for_less_says_so_where_it_is_typed(
        quantity, output_voltage, mains_voltage, words):
    said = list(remarks_of(SimpleNamespace(quantity=quantity, output_voltage=output_voltage,
                                           mains_voltage=mains_voltage)))
    assert len(said) == len(words)
    assert all(word in text for word, text in zip(words, said, strict=True))
