import pytest

from teardowns.forms.layout_form import LayoutForm
from teardowns.logs.layout import Layout, LogColumn

LAYOUT = Layout("utf-8", ",", ".", 2, (
    LogColumn(0, "t", "time", "s"), LogColumn(1, "U", "output_voltage", "V"),
    LogColumn(2, "Note"), LogColumn(3, "T1", "temperature", "°C")))


def sent(**changed):
    form = LayoutForm(layout=LAYOUT)
    typed = {name: form[name].value() or "" for name in form.fields} | {"version": "1"}
    return LayoutForm(typed | changed, layout=LAYOUT)


def test_what_is_proposed_can_be_confirmed_as_it_is():
    form = sent()
    assert form.is_valid() and form.laid_out() == LAYOUT


def test_a_place_belongs_to_a_temperature_alone():
    form = sent(**{"place-3": "case_temperature", "place-1": "case_temperature"})
    assert form.is_valid()
    assert [column.place for column in form.laid_out().columns] == ["", "", "", "case_temperature"]


@pytest.mark.parametrize(("changed", "name", "says"), [
    ({"separator": ","} | {"decimal": ","}, "separator", "told apart"),
    ({"thousands": "."}, "thousands", "same mark"),
    ({"role-2": "output_voltage"}, "role-2", "not used"),
    ({"unit-1": "mA"}, "unit-1", "choose a unit of V"),
    ({"role-0": "not_used"}, "time_style", "No column gives the time"),
    ({"time_style": "interval"}, "interval", "such as 0.5 s"),
    ({"time_style": "interval", "interval": "1 s"}, "time_style", "not used"),
    ({"role-1": "not_used", "role-3": "not_used"}, "__all__", "No column is used"),
    ({"first_line": "0"}, "first_line", "line 1"),
])
def test_what_cannot_be_is_said_at_its_field(changed, name, says):
    form = sent(**changed)
    assert not form.is_valid() and says in form.errors[name][0]


def test_rows_at_an_interval_need_no_column():
    form = sent(**{"role-0": "not_used", "unit-0": "", "time_style": "interval",
                   "interval": "20 ns"})
    assert form.is_valid() and form.laid_out().interval == pytest.approx(20e-9)


def test_each_column_has_its_three_fields():
    columns = LayoutForm(layout=LAYOUT).column_fields()
    assert [column["label"] for column in columns] == ["t", "U", "Note", "T1"]
    assert columns[1]["role"].value() == "output_voltage"
