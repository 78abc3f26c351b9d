"""The database itself refuses what may not be stored, on SQLite and on PostgreSQL alike."""
import math

import pytest
from django.db import IntegrityError, transaction

from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Part,
    PartLimit,
    Port,
    Review,
    ReviewDecision,
    StackLayer,
    Unit,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def alice(django_user_model):
    return django_user_model.objects.create_user("alice")


@pytest.fixture
def unit(alice):
    return Unit.objects.create(contributor=alice, title="A wall charger")


def refused(model, **fields):
    """Whether the database refuses the row by a constraint."""
    try:
        with transaction.atomic():
            model.objects.create(**fields)
    except IntegrityError:
        return True
    return False


@pytest.fixture
def measurement(unit, alice):
    def fields(**changed):
        return {
            "unit": unit, "author": alice, "key": "mass", "quantity": "mass_total", "value": 0.05,
            "uncertainty": 0.001, "uncertainty_kind": "interval",
        } | changed
    return fields


def test_a_sound_measurement_is_kept(measurement):
    assert not refused(Measurement, **measurement())


@pytest.mark.parametrize(
    "wrong",
    [
        {"value": None},                                        # recorded, yet no value
        {"state": "not_found"},                                 # not found, yet a value
        {"state": "perhaps"},
        {"how": "dreamt"},
        {"uncertainty": -1.0},
        {"uncertainty": None},                                  # a kind without its number
        {"uncertainty_kind": ""},                               # a number without its kind
        {"uncertainty_kind": "vague"},
        {"value": math.inf},
        {"value": math.nan},
        {"quantity": ""},
        {"review_state": "liked"},
        {"duration": -1.0},
    ],
    ids=str,
)
def test_an_unsound_measurement_is_refused(measurement, wrong):
    assert refused(Measurement, **measurement(**wrong))


def test_the_four_states_of_looking_are_four_facts(measurement):
    for state in ("not_looked", "not_found", "not_readable"):
        unknown = {"value": None, "uncertainty": None, "uncertainty_kind": "", "state": state}
        assert not refused(Measurement, **measurement(key=state, **unknown))
    assert refused(Measurement, **measurement(
        key="no", state="recorded", value=None, uncertainty=None, uncertainty_kind=""))


@pytest.mark.parametrize("wrong", [
    {"bound_kind": ""}, {"bound": None}, {"bound": math.inf}, {"bound_kind": "about"},
    {"state": "not_found"},
    {"state": "recorded", "value": 1.0},                        # a value, and a limit beside it
], ids=str)
def test_a_limit_stands_with_its_side_in_place_of_a_value(measurement, wrong):
    limit = {"value": None, "uncertainty": None, "uncertainty_kind": "", "state": "not_readable",
             "bound": 1.0, "bound_kind": "above"}
    assert not refused(Measurement, **measurement(key="sound", **limit))
    assert refused(Measurement, **measurement(**limit | wrong))


def test_a_load_is_that_of_one_port_or_of_all(unit, measurement, alice):
    port = Port.objects.create(unit=unit, key="c1", label="C1", author=alice)
    assert not refused(Measurement, **measurement(key="all", all_ports=True))
    assert refused(Measurement, **measurement(all_ports=True, port=port))
    assert refused(Measurement, **measurement(output_current=-1.0))


def test_a_key_names_one_row_of_a_unit(measurement):
    Measurement.objects.create(**measurement())
    assert refused(Measurement, **measurement())


def test_a_claims_span_and_voltages_are_in_order(unit, alice):
    claim = {"unit": unit, "author": alice, "key": "c", "kind": "output"}
    assert refused(Claim, **claim, voltage_low=12.0, voltage_high=5.0)
    assert refused(Claim, **claim, start=9, end=4)
    assert refused(Claim, **claim, power=-5.0)
    assert not refused(Claim, **claim, voltage_low=5.0, voltage_high=12.0, start=4, end=9)


def test_a_components_role_and_values_are_possible(unit, alice):
    part = {"unit": unit, "author": alice, "key": "c"}
    assert refused(Component, **part, role="ornament")
    assert refused(Component, **part, role="fuse", rated_current=-1.0)
    assert not refused(Component, **part, role="fuse", rated_current=1.0)


@pytest.mark.parametrize("field", [
    "rated_power", "ripple_current", "on_resistance", "diameter", "length"])
def test_a_rating_or_a_size_is_unknown_or_a_finite_number_not_below_zero(unit, alice, field):
    part = {"unit": unit, "author": alice, "role": "core"}
    for index, wrong in enumerate((-1.0, math.inf)):
        assert refused(Component, **part, key=f"w{index}", **{field: wrong})
    assert not refused(Component, **part, key="unknown", **{field: None})
    assert not refused(Component, **part, key="known", **{field: 0.01})


def test_a_part_outlives_the_port_that_it_serves(unit, alice):
    port = Port.objects.create(unit=unit, key="c1", label="C1", author=alice)
    part = Component.objects.create(unit=unit, key="c", role="output_capacitor", port=port,
                                    author=alice)
    port.delete()
    part.refresh_from_db()
    assert part.port is None


def test_a_port_advertises_a_possible_current(unit, alice):
    port = {"unit": unit, "author": alice, "label": "C1"}
    assert refused(Port, **port, key="c1", cc_current=-0.5)
    assert refused(Port, **port, key="c1", cc_current=math.inf)
    assert not refused(Port, **port, key="c1", cc_current=3.0)


def test_a_layer_is_a_winding_with_a_role_or_insulation_without(unit, alice):
    layer = {"unit": unit, "author": alice, "key": "l", "position": 1}
    assert refused(StackLayer, **layer, kind="winding")
    assert refused(StackLayer, **layer, kind="insulation", winding="primary")
    assert refused(StackLayer, **layer, kind="insulation", in_parallel=True)
    assert not refused(StackLayer, **layer, kind="winding", winding="primary", in_parallel=True)


def test_an_insulation_path_has_known_words(unit, alice):
    path = {"unit": unit, "author": alice, "key": "p", "place": "slot", "value": 0.004}
    assert refused(InsulationObservation, **path, path="shortcut")
    assert refused(InsulationObservation, **path, path="creepage", barrier="WALL")
    assert refused(InsulationObservation, **path, path="creepage", pollution_degree=4)
    assert refused(InsulationObservation, **path, path="creepage", material_group="IV")
    assert not refused(InsulationObservation, **path, path="creepage")


def test_a_limit_without_a_citation_is_refused(alice):
    part = Part.objects.create(marking="ZX-204", curator=alice)
    assert refused(PartLimit, part=part, quantity="controller_power_wide", value=12.0, citation="")


def test_a_dispute_without_a_reason_is_refused(unit, alice):
    review = Review.objects.create(unit=unit, reviewer=alice)
    decision = {"review": review, "ref": "measurement/mass", "evidence_version": 1}
    assert refused(ReviewDecision, **decision, decision="disputed")
    assert not refused(ReviewDecision, **decision, decision="disputed", reason="wrong scale")


def test_one_person_opens_a_unit_once(unit, alice):
    Review.objects.create(unit=unit, reviewer=alice)
    assert refused(Review, unit=unit, reviewer=alice)


def test_a_units_status_is_known(alice):
    assert refused(Unit, contributor=alice, title="x", status="famous")
    assert refused(Unit, contributor=alice, title="x", price=-1)
    assert refused(Unit, contributor=alice, title="x", photographed_sides=3)

