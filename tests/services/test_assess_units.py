"""Assessing: once for one set of evidence, the current one first, safe to run again."""
import json

import pytest
from django.contrib.auth import get_user_model

from teardowns.engine import rulebook
from teardowns.exchange.digest import digest
from teardowns.exchange.verdict import verdicts
from teardowns.models import Assessment, ReferenceSet, Unit
from teardowns.services import assess_units as service
from teardowns.services.assess_units import assess_units, list_columns
from teardowns.services.export_unit import unit_document
from teardowns.services.import_unit import import_unit
from tests.exchange.whole_document import whole_document
from tests.published import confirm_all

pytestmark = pytest.mark.django_db


@pytest.fixture
def alice(db):
    return get_user_model().objects.create(username="alice")


def new_unit(alice):
    document = whole_document()
    del document["unit"]["uid"]
    return import_unit(document, alice, "in_review")


@pytest.fixture
def unit(alice):
    return new_unit(alice)


def set_value(unit, value):
    unit.measurements.filter(key="held").update(value=value)


def test_an_assessment_stores_the_report_and_what_lists_print(unit):
    (made,) = assess_units([unit])
    claim = made.payload["claims"][made.payload["headline"]]
    assert made.rulebook == rulebook.load().version
    assert made.evidence_digest == made.payload["evidence_digest"] == digest(unit_document(unit))
    assert (made.verdict, made.claimed_power) == (claim["verdict"], 15.0)
    assert made.plausibility == claim["plausibility"]
    assert made.capability_low < made.capability < made.capability_high


def test_again_over_the_same_evidence_nothing_is_computed(unit, monkeypatch):
    first = assess_units([unit])
    monkeypatch.setattr(service, "verdicts", lambda documents, *_: [1 / 0 for _ in documents])
    assert assess_units([unit]) == first
    assert Assessment.objects.count() == 1


def test_new_evidence_makes_a_new_assessment_and_keeps_the_old(unit):
    (before,) = assess_units([unit])
    set_value(unit, 9.0)
    (after,) = assess_units([unit])
    assert before.pk != after.pk
    assert unit.assessments.first() == unit.assessments.latest() == after


def test_evidence_that_went_back_makes_its_old_assessment_current_again(unit):
    (before,) = assess_units([unit])
    set_value(unit, 9.0)
    assess_units([unit])
    set_value(unit, 12.3)
    assert assess_units([unit]) == [before]
    assert unit.assessments.first() == unit.assessments.latest() == before
    assert Assessment.objects.count() == 2


def test_many_units_get_what_each_gets_alone(alice):
    units = [new_unit(alice) for _ in range(3)]
    set_value(units[1], 9.0)
    alone = [assess_units([unit])[0].payload for unit in units]
    Assessment.objects.all().delete()
    together = [made.payload for made in assess_units(units)]
    assert json.dumps(together) == json.dumps(alone)


def test_queries_do_not_grow_with_the_number_of_units(alice, django_assert_max_num_queries):
    units = [new_unit(alice) for _ in range(4)]
    with django_assert_max_num_queries(20):
        assert len(assess_units(units)) == 4


def test_a_unit_named_twice_is_assessed_once_and_one_that_is_gone_not_at_all(unit, alice):
    gone = new_unit(alice)
    Unit.objects.filter(pk=gone.pk).delete()
    assert [made.unit for made in assess_units([unit, gone, unit])] == [unit]


def test_a_change_of_the_unit_by_another_process_is_seen(unit):
    (before,) = assess_units([unit])
    Unit.objects.filter(pk=unit.pk).update(photographed_sides=0)
    assert assess_units([unit])[0].evidence_digest != before.evidence_digest


def test_confirmed_evidence_is_assessed_apart(unit):
    (everything,) = assess_units([unit])
    unit.measurements.update(review_state="open")
    (confirmed,) = assess_units([unit], confirmed_only=True)
    assert confirmed.confirmed_only
    assert everything.evidence_digest != confirmed.evidence_digest
    assert not any("measurement/held" in line["evidence"] for line in confirmed.payload["lines"])


def test_another_reference_set_makes_another_assessment_and_keeps_the_old(unit):
    (before,) = assess_units([unit])
    assert before.payload["reference_set"] is None
    ReferenceSet.objects.create(number=4, digest="5f" * 32, rulebook=before.rulebook, habits={},
                                units={}, excluded={}, is_active=True)
    (after,) = assess_units([unit])
    assert after.rulebook == f"{before.rulebook}+set4-5f5f5f5f"
    assert after.payload["reference_set"] == "set4-5f5f5f5f"
    assert list(unit.assessments.all()) == [after, before]


NOTHING = {"findings": [], "level": "", "without_scenario": [], "flags": []}


def test_without_a_power_claim_lists_have_no_verdict_to_print():
    report = {"headline": None, "claims": [], "capability": {"low": None, "high": None},
              "safety": NOTHING}
    assert list_columns(report) == {"risk": 0, "risk_certainty": None, "flags": 0}


def test_lists_sort_by_the_gravest_level_and_by_its_surest_finding():
    findings = [{"level": "high", "certainty": 0.7}, {"level": "high", "certainty": None},
                {"level": "medium", "certainty": 0.99}]
    report = {"headline": None, "claims": [], "capability": {"low": None, "high": None},
              "safety": NOTHING | {"findings": findings, "level": "high"}}
    assert list_columns(report) == {"risk": 3, "risk_certainty": 0.7, "flags": 0}


def test_what_hurts_without_a_level_is_counted_for_reviewers():
    report = {"headline": None, "claims": [], "capability": {"low": None, "high": None},
              "safety": NOTHING | {"without_scenario": [2], "flags": [0, 4]}}
    assert list_columns(report)["flags"] == 3


def test_where_everything_is_confirmed_both_kinds_are_one_computation(unit, monkeypatch):
    confirm_all(unit)
    (public,) = assess_units([unit], confirmed_only=True)
    monkeypatch.setattr(service, "verdicts", lambda documents, *_: [1 / 0 for _ in documents])
    (whole,) = assess_units([unit])
    assert whole.pk != public.pk and not whole.confirmed_only
    assert whole.payload == public.payload and whole.capability == public.capability
    monkeypatch.undo()
    assert whole.payload == verdicts([unit_document(unit)])[0]


def test_where_a_row_waits_each_kind_is_computed(unit):
    confirm_all(unit)
    unit.measurements.filter(key="held").update(review_state="open")
    public, whole = (assess_units([unit], confirmed_only=kind)[0] for kind in (True, False))
    assert public.evidence_digest != whole.evidence_digest
