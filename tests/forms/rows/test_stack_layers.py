import pytest

from teardowns.models import StackLayer
from tests.forms.sent import checked, messages, only_change

pytestmark = pytest.mark.django_db


def layer(unit, **typed):
    return checked(unit, "transformer", {f"stack-0-{name}": text for name, text in typed.items()})


@pytest.mark.parametrize("turns", ["80", "80 turns", "80 Wdg."])
def test_a_winding_has_its_role_and_its_turns(unit, turns):
    stored = only_change(layer(unit, layer="primary", turns=turns, bare_diameter="0,25 mm"))
    assert (stored["kind"], stored["winding"], stored["turns"]) == ("winding", "primary", 80.0)
    assert stored["bare_diameter"] == pytest.approx(0.00025)
    assert stored["position"] == 1


def test_insulation_has_no_winding(unit):
    stored = only_change(layer(unit, layer="insulation", tape_layers="3"))
    assert (stored["kind"], stored["winding"], stored["tape_layers"]) == ("insulation", "", 3)


@pytest.mark.parametrize("typed, remedy", [
    ({"turns": "80"}, "Choose what this layer is"),
    ({"layer": "insulation", "turns": "4"}, "Insulation has no wire"),
    ({"layer": "insulation", "in_parallel": "yes"}, "Insulation has no wire"),
    ({"layer": "primary", "in_parallel": "yes"}, "No layer of the primary winding lies before"),
])
def test_a_layer_that_makes_no_sense_is_refused(unit, typed, remedy):
    assert remedy in messages(layer(unit, **typed))


def halves(unit, **second):
    rows = ({"layer": "secondary", "turns": "6"},
            {"layer": "secondary", "turns": "6", "in_parallel": "yes"} | second)
    return checked(unit, "transformer", {
        f"stack-{i}-{name}": text for i, row in enumerate(rows) for name, text in row.items()})


def test_a_layer_may_lie_in_parallel_with_the_one_of_its_winding_before(unit):
    form = halves(unit)
    assert messages(form) == ""
    assert [change.values["in_parallel"] for change in form.row_changes()] == [False, True]


def test_the_first_of_two_places_cannot_be_the_parallel_one(unit):
    assert "correct its place, or choose “in series”" in messages(halves(unit, position="1"))


def test_a_stored_parallel_layer_sent_back_unchanged_stays_untouched(unit, alice):
    for position in (1, 2):
        StackLayer.objects.create(unit=unit, key=f"s{position}", position=position, kind="winding",
                                  winding="secondary", in_parallel=position == 2, author=alice)
    form = checked(unit, "transformer", {})
    assert messages(form) == "" and form.row_changes() == []


@pytest.mark.parametrize(("field", "typed", "told"), [
    ("turns", "-4", "This begins at 0"), ("strands", "5000", "This ends at 1000"),
    ("tape_layers", "two", "for example 12")])
def test_a_count_that_cannot_be_says_where_counts_begin_and_end(unit, field, typed, told):
    form = checked(unit, "transformer", {"stack-0-layer": "primary", f"stack-0-{field}": typed})
    assert told in messages(form)
