"""Every row of evidence has a name that a person recognises, all of them from one query."""
import pytest

from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Port,
    PrintedText,
    StackLayer,
    Unit,
)
from teardowns.presenting.evidence_called import CALLED, evidence_called
from tests.views.opened import opened

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("model, fields, name", [
    (Component, {"role": "bulk_capacitor", "designator": "C1"}, "bulk capacitor C1"),
    (Component, {"role": "bulk_capacitor"}, "bulk capacitor"),
    (InsulationObservation, {"path": "clearance", "place": "slot", "value": 0.006},
     "slot, clearance"),
    (InsulationObservation, {"path": "insulation_thickness", "place": "tape", "value": 0.0004},
     "tape, through solid insulation"),
    (StackLayer, {"position": 3, "kind": "insulation"}, "Layer 3 of the transformer"),
    (Port, {"label": "C1"}, "Port C1"),
    (Measurement, {"quantity": "mass_total", "value": 0.05}, "Mass of the whole unit"),
    (Claim, {"kind": "output", "text": "5V 3A"}, "“5V 3A”"),
    (PrintedText, {"source": "plate", "text": "5V 3A"}, "Printed on the rating plate"),
    (Claim, {"kind": "mark", "mark": "class_ii"}, "“class_ii”"),
])
def test_a_row_is_called_by_what_it_is(alice, unit, model, fields, name):
    model.objects.create(unit=unit, key="it", author=alice, **fields)
    assert evidence_called(unit) == {f"{model._meta.model_name}/it": name}


def test_names_are_asked_for_at_once(alice, django_assert_num_queries):
    unit = opened(alice)
    with django_assert_num_queries(1):
        named = evidence_called(unit)
    assert len(named) == sum(model.objects.filter(unit=unit).count() for model in CALLED)


def test_rows_of_another_unit_are_not_among_them(alice, unit):
    other = Unit.objects.create(contributor=alice, title="Another")
    Port.objects.create(unit=other, key="c1", label="C1", author=alice)
    assert evidence_called(unit) == {}
