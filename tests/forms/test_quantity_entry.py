import pytest

from teardowns.forms.section_form import SectionForm
from teardowns.forms.sections import BY_SLUG
from teardowns.models import Measurement
from tests.forms.sent import checked, messages, only_change

pytestmark = pytest.mark.django_db


def mass(unit, **typed):
    return checked(unit, "outside", {f"mass-total-0-{name}": text for name, text in typed.items()})


def bulk(unit, **typed):
    return checked(unit, "mains-side",
                   {f"bulk-capacitance-0-{name}": text for name, text in typed.items()})


def test_a_blank_entry_is_no_entry(unit):
    assert mass(unit).row_changes() == []


def test_a_value_alone_is_recorded_and_measured_in_the_unit_of_the_field(unit):
    stored = only_change(mass(unit, value="72.3"))
    assert stored["value"] == pytest.approx(0.0723)
    assert (stored["state"], stored["how"], stored["uncertainty"]) == ("recorded", "measured", None)


@pytest.mark.parametrize("spread, absolute", [
    ("0.3", 0.3e-6), ("0.3 µF", 0.3e-6), ("300 nF", 0.3e-6), ("± 0.3", 0.3e-6), ("2 %", 0.3e-6),
])
def test_the_spread_has_a_unit_of_its_own_or_none(unit, spread, absolute):
    stored = only_change(bulk(unit, value="15 µF", spread=spread))
    assert stored["uncertainty"] == pytest.approx(absolute)
    assert stored["uncertainty_kind"] == "interval"


def test_a_spread_in_the_value_s_own_text_counts(unit):
    stored = only_change(bulk(unit, value="15 µF ± 20 %"))
    assert stored["uncertainty"] == pytest.approx(3e-6)         # 20 % of 15 µF
    assert stored["uncertainty_kind"] == "tolerance"


def test_the_kind_of_spread_is_the_contributor_s_to_say(unit):
    stored = only_change(bulk(unit, value="15", spread="0.2", spread_kind="standard"))
    assert stored["uncertainty_kind"] == "standard"


def test_a_spread_larger_than_the_value_names_the_two_likely_repairs(unit):
    said = messages(bulk(unit, value="15.2", spread="18"))
    assert "± 18 µF is larger than the value" in said
    assert "write “18 %”" in said and "“1.8 µF”" in said


def test_a_spread_stated_twice_is_refused(unit):
    assert "stated twice" in messages(bulk(unit, value="15 ± 1", spread="1"))


def test_a_spread_without_a_value_is_refused(unit):
    assert "without a value" in messages(bulk(unit, spread="1"))


@pytest.mark.parametrize("state", ["not_looked", "not_found", "not_readable"])
def test_each_state_without_a_value_is_a_fact_of_its_own(unit, state):
    stored = only_change(mass(unit, state=state))
    assert (stored["state"], stored["value"]) == (state, None)


def test_a_state_without_value_beside_a_value_is_refused(unit):
    assert "“Not looked”, but a value" in messages(mass(unit, state="not_looked", value="70"))


def test_recorded_needs_a_value(unit):
    assert "needs a value" in messages(mass(unit, state="recorded"))


def test_a_limit_is_kept_as_a_limit_and_no_value(unit):
    stored = only_change(bulk(unit, value="> 15 µF", state="recorded"))
    assert (stored["bound_kind"], stored["bound"]) == ("above", pytest.approx(15e-6))
    assert (stored["state"], stored["value"]) == ("not_readable", None)


def test_a_limit_that_is_stored_is_shown_as_it_was_typed_and_is_no_change(unit):
    row = Measurement.objects.create(
        unit=unit, key="r", quantity="bulk_capacitance", author=unit.contributor,
        state="not_readable", bound=15e-6, bound_kind="at_most")
    form = SectionForm(BY_SLUG["mains-side"], unit)
    shown = next(rows.forms[0] for rows in form.row_sets if rows.item.prefix == "bulk-capacitance")
    assert (shown.initial["value"], shown.initial["state"]) == ("≤ 15 µF", "recorded")
    typed = {name: str(text) for name, text in shown.initial.items()}
    assert bulk(unit, **typed | {"key": row.key, "version": "1"}).row_changes() == []


def test_a_value_takes_the_place_of_a_limit(unit):
    row = Measurement.objects.create(
        unit=unit, key="r", quantity="bulk_capacitance", author=unit.contributor,
        state="not_readable", bound=15e-6, bound_kind="at_most")
    stored = only_change(bulk(unit, key=row.key, version="1", value="14.2", state="recorded"))
    assert (stored["value"], stored["bound"], stored["bound_kind"]) == (
        pytest.approx(14.2e-6), None, "")


@pytest.mark.parametrize("typed, words", [
    ({"value": "> 15", "spread": "1"}, "A limit has no uncertainty"),
    ({"value": "> 15", "state": "not_found"}, "“Looked, not found”, but a limit"),
    ({"value": "> 15 F"}, "outside what can exist"),
])
def test_what_no_limit_can_have_is_named(unit, typed, words):
    assert words in messages(bulk(unit, **typed))


@pytest.mark.parametrize("slug, field, example", [
    ("load", "no-load-power", "“< 0.1 W”"), ("barrier", "touch-current", "“< 0.1 mA”")])
def test_what_a_meter_shows_as_nothing_is_a_limit(unit, slug, field, example):
    assert example in messages(checked(unit, slug, {f"{field}-0-value": "0"}))


def test_a_value_that_cannot_exist_is_refused_with_the_range(unit):
    said = messages(mass(unit, value="72 kg"))
    assert "72000 g is outside what can exist here, 0 g to 10000 g" in said


def test_conditions_are_kept_with_the_measurement(unit):
    form = checked(unit, "load", {"efficiency-0-value": "82 %",
                                  "efficiency-0-mains_voltage": "230"})
    stored = only_change(form)
    assert stored["value"] == pytest.approx(0.82)
    assert stored["mains_voltage"] == 230.0


@pytest.mark.parametrize("state, value", [("recorded", 1.0), ("not_found", None)])
def test_a_part_is_found_or_not(unit, state, value):
    form = checked(unit, "output-side", {"isolated-feedback-0-state": state})
    assert only_change(form)["value"] == value


def test_a_stored_entry_that_is_sent_back_unchanged_stays_untouched(unit, alice):
    Measurement.objects.create(unit=unit, key="mass", quantity="mass_total", value=1 / 13,
                               uncertainty=0.001 / 3, uncertainty_kind="standard", author=alice)
    assert mass(unit).row_changes() == []


def test_two_stored_readings_of_a_quantity_are_both_shown(unit, alice):
    for key, volts in (("a", 115.0), ("b", 230.0)):
        Measurement.objects.create(unit=unit, key=key, quantity="efficiency", value=0.8,
                                   mains_voltage=volts, author=alice)
    form = checked(unit, "load", {})
    rows = next(part for part in form.row_sets if part.item.prefix == "efficiency")
    assert [title for title, _ in rows.titles()] == ["Efficiency at full load 1",
                                                     "Efficiency at full load 2"]
