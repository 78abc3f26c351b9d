from types import SimpleNamespace

import pytest

from teardowns.forms.rows.load_tests import remarks_of
from teardowns.forms.section_form import SectionForm
from teardowns.forms.sections import BY_SLUG
from teardowns.models import Measurement, Port
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
    stored = only_change(load(unit, result="failed", output_voltage="5",
                              output_current="2.4 A ± 1 %"))
    assert stored["value"] == pytest.approx(12.0)               # 5 V × 2.4 A
    assert stored["uncertainty"] == pytest.approx(0.12)         # 1 % of 12 W
    assert stored["output_voltage"] == 5.0


def test_a_power_that_contradicts_voltage_and_current_is_refused(unit):
    said = messages(load(unit, result="failed", value="13.1", output_voltage="5",
                         output_current="2"))
    assert "5 V × 2 A is 10 W, not 13.1 W" in said


@pytest.mark.parametrize("typed, remedy", [
    ({"value": "12"}, "whether the load was held"),
    ({"result": "failed"}, "output power, or both voltage and current"),
    ({"result": "passed", "value": "12"}, "needs its time"),
    ({"result": "passed", "value": "12", "duration": "9 s"}, "Less than ten seconds"),
    ({"result": "failed", "value": "0"}, "outside what can exist"),
    ({"result": "failed", "value": "> 30 W"}, "write the value"),
])
def test_what_is_missing_is_named(unit, typed, remedy):
    assert remedy in messages(load(unit, **typed))


def test_an_untouched_row_says_nothing(unit):
    assert load(unit).row_changes() == []


def test_the_current_beside_a_power_is_kept_as_a_fact_of_its_own(unit):
    stored = only_change(load(unit, result="failed", value="31 W", output_voltage="9",
                              output_current="3,44 A", note="two resistors in parallel"))
    assert (stored["value"], stored["output_current"]) == (31.0, 3.44)
    assert stored["note"] == "two resistors in parallel"


def saved(unit, **values):
    return Measurement.objects.create(
        unit=unit, key="held", quantity="failed_power", author=unit.contributor,
        **{"value": 12.0, "output_voltage": 5.0, "output_current": 2.4} | values)


def corrected(unit, row, **typed):
    shown = {name: str(text) for name, text in SectionForm(BY_SLUG["load"], unit).row_sets[0]
             .forms[0].initial.items()}
    return load(unit, **shown | {"key": row.key, "version": str(row.version)} | typed)


def test_a_power_that_was_worked_out_follows_the_current_that_is_corrected(unit):
    stored = only_change(corrected(unit, saved(unit), output_current="2.45"))
    assert (stored["value"], stored["output_current"]) == (12.25, 2.45)      # 5 V × 2.45 A


def test_a_power_that_was_measured_does_not_follow(unit):
    stored = only_change(corrected(unit, saved(unit, value=12.1), output_current="2.45"))
    assert (stored["value"], stored["output_current"]) == (12.1, 2.45)


def test_the_uncertainty_of_a_power_that_follows_stays(unit):
    row = saved(unit, uncertainty=0.1, uncertainty_kind="interval")
    stored = only_change(corrected(unit, row, output_voltage="5.1"))
    assert (stored["value"], stored["uncertainty"]) == (pytest.approx(12.24), pytest.approx(0.1))


@pytest.fixture
def two_ports(unit):
    return [Port.objects.create(unit=unit, key=key, label=key, author=unit.contributor)
            for key in ("c1", "a1")]


def test_all_ports_together_are_a_choice_where_there_are_several(unit, two_ports):
    stored = only_change(load(unit, result="failed", value="33 W", port="*"))
    assert (stored["all_ports"], stored["port"]) == (True, None)


def test_a_port_alone_is_not_all_of_them(unit, two_ports):
    stored = only_change(load(unit, result="failed", value="33 W", port="c1"))
    assert (stored["all_ports"], stored["port"]) == (False, "c1")


def test_a_single_port_has_no_such_choice(unit):
    form = SectionForm(BY_SLUG["load"], unit).row_sets[0].forms[0]
    assert [value for value, _ in form.fields["port"].choices] == [""]


def test_what_all_ports_held_is_shown_as_that(unit, two_ports):
    row = saved(unit, all_ports=True, output_current=None)
    assert corrected(unit, row).row_changes() == []


@pytest.mark.parametrize("quantity, output_voltage, mains_voltage, words", [
    ("sustained_power", 9.0, 230.0, []), ("sustained_power", None, None, ["high end"]),
    ("failed_power", 9.0, 230.0, []), ("failed_power", None, None, ["voltage set", "low end"]),
    ("peak_power", 9.0, 230.0, ["short-time"]),
])
def test_a_load_that_counts_for_less_says_so_where_it_is_typed(
        quantity, output_voltage, mains_voltage, words):
    said = list(remarks_of(SimpleNamespace(quantity=quantity, output_voltage=output_voltage,
                                           mains_voltage=mains_voltage, all_ports=False)))
    assert len(said) == len(words)
    assert all(word in text for word, text in zip(words, said, strict=True))


def test_ports_that_were_lost_together_are_asked_for_no_voltage_that_they_do_not_share(unit):
    said, _ = remarks_of(SimpleNamespace(quantity="failed_power", output_voltage=None,
                                         mains_voltage=None, all_ports=True))
    assert "If all ports were set to one voltage" in said and "leave it blank" in said
