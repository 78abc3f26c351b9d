import pytest

from tests.forms.sent import checked, messages, only_change

pytestmark = pytest.mark.django_db


def layer(unit, **typed):
    return checked(unit, "transformer", {f"stack-0-{name}": text for name, text in typed.items()})


def test_a_winding_has_its_role_and_its_turns(unit):
    stored = only_change(layer(unit, layer="primary", turns="80", bare_diameter="0,25 mm"))
    assert (stored["kind"], stored["winding"], stored["turns"]) == ("winding", "primary", 80.0)
    assert stored["bare_diameter"] == pytest.approx(0.00025)
    assert stored["position"] == 1


def test_insulation_has_no_winding(unit):
    stored = only_change(layer(unit, layer="insulation", tape_layers="3"))
    assert (stored["kind"], stored["winding"], stored["tape_layers"]) == ("insulation", "", 3)


@pytest.mark.parametrize("typed, remedy", [
    ({"turns": "80"}, "Choose what this layer is"),
    ({"layer": "insulation", "turns": "4"}, "Insulation has no wire"),
])
def test_a_layer_that_makes_no_sense_is_refused(unit, typed, remedy):
    assert remedy in messages(layer(unit, **typed))
