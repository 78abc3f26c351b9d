import pytest
from django.core.exceptions import ValidationError

from teardowns.forms.conditions_form import FIELDS, AccuracyField, ConditionsForm
from teardowns.logs.conditions import Accuracy, Cable, Conditions


@pytest.mark.parametrize(("text", "limits"), [
    ("0.5 % + 20 mV", Accuracy(0.005, 0.02)), ("0,5% + 2 digits", Accuracy(0.005, 0.0, 2)),
    ("1 %", Accuracy(0.01, 0.0)), ("±20 mV", Accuracy(0.0, 0.02)),
    ("0.05% and 10mV", Accuracy(0.0005, 0.01)), ("0.1 % + 3 counts", Accuracy(0.001, 0.0, 3)),
])
def test_limits_of_error_are_read_as_data_sheets_print_them(text, limits):
    assert AccuracyField("V").clean(text) == limits
    assert AccuracyField("V").clean(AccuracyField("V").print(limits)) == limits


@pytest.mark.parametrize("text", ["x", "-3 %", "nan %", "1 % + 1e400 V", "70 %", "5 A", "%"])
def test_what_are_no_limits_of_error_says_what_would_be(text):
    with pytest.raises(ValidationError, match="write"):
        AccuracyField("V").clean(text)


def test_nothing_stated_is_nothing_stated():
    form = ConditionsForm({}, kind="load_sweep", conditions=Conditions())
    assert form.is_valid() and form.stated() == Conditions()


def test_what_was_stated_comes_back_as_it_was():
    stated = Conditions(mains_voltage=230.0, set_voltage=5.0, cable=Cable(1.0, 0.2e-6, 0.06),
                        accuracies={"output_voltage": Accuracy(0.005, 0.0, 2)})
    shown = ConditionsForm(kind="load_sweep", conditions=stated).initial
    form = ConditionsForm(shown, kind="load_sweep", conditions=Conditions())
    assert form.is_valid() and form.stated() == stated


def test_a_voltage_taken_at_the_port_is_not_one_of_unknown_place():
    form = ConditionsForm({"cable_length": "0"}, kind="load_sweep", conditions=Conditions())
    assert form.is_valid() and form.stated().cable == Cable(0.0, 0.0)
    shown = ConditionsForm(kind="load_sweep", conditions=form.stated()).initial
    again = ConditionsForm(shown, kind="load_sweep", conditions=Conditions())
    assert again.is_valid() and again.stated().cable == Cable(0.0, 0.0)


def test_an_inductance_keeps_half_of_its_expanded_uncertainty():
    form = ConditionsForm({"primary_inductance": "1.2 ± 0.1 mH"}, kind="waveform",
                          conditions=Conditions())
    assert form.is_valid()
    assert (form.stated().primary_inductance, form.stated().inductance_u) == pytest.approx(
        (1.2e-3, 0.05e-3))


def test_a_length_of_cable_without_its_copper_is_asked_for():
    form = ConditionsForm({"cable_length": "1 m"}, kind="load_sweep", conditions=Conditions())
    assert "area" in form.errors["cable_area"][0]


@pytest.mark.parametrize("kind", FIELDS)
def test_every_kind_asks_only_what_conditions_know(kind):
    form = ConditionsForm({}, kind=kind, conditions=Conditions())
    assert list(form.fields) == list(FIELDS[kind])
    assert form.is_valid() and form.stated() == Conditions()
