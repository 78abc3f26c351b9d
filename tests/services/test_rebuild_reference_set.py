"""What published, measured units teach; and that nothing happens until it is put into force."""
from math import exp

import pytest

from core.audit.models import Entry
from teardowns.engine import rulebook
from teardowns.models import Assessment, ReferenceSet
from teardowns.services.active_rulebook import active_rulebook
from teardowns.services.assess_units import assess_units
from teardowns.services.rebuild_reference_set import (
    activate_reference_set,
    moved_by,
    propose_reference_set,
)
from tests.published import published
from tests.services.measured_units import law, measured_unit, measured_units

pytestmark = pytest.mark.django_db
MASS = "power/mass_per_watt"
WIDE_INPUT = {"kind": "input", "key": "in", "text": "100-240 V", "voltage_low": 100.0,
              "voltage_high": 240.0}


def learned():
    return propose_reference_set().stored.habits


def test_fourteen_units_teach_the_mass_habit(alice):
    measured_units(alice)
    proposal = propose_reference_set()
    habit = proposal.stored.habits[MASS]
    assert proposal.sized[MASS] == habit["n"] == 14
    # sd of the slope: 0.15 / √(14 · (ln 8)²/12) = 0.067
    assert habit["slope"] == pytest.approx(1.3, abs=0.2)
    assert (habit["smallest"], habit["largest"]) == (pytest.approx(20), pytest.approx(160))


def test_the_powers_are_those_between_held_and_lost(alice):
    unit = measured_unit(alice, 50.0)
    units = propose_reference_set().stored.units
    assert units == {str(unit.uid): {"power": pytest.approx(law(50.0)), "mains_voltage": None}}


def test_eleven_units_teach_nothing(alice):
    measured_units(alice, n=11)
    proposal = propose_reference_set()
    assert proposal.stored.habits == {} and proposal.sized[MASS] == 11
    assert proposal.says_nothing


def test_an_empty_site_teaches_nothing():
    proposal = propose_reference_set()
    assert (proposal.stored.units, proposal.stored.habits) == ({}, {})


def test_drafts_and_withdrawn_units_teach_nothing(alice):
    measured_unit(alice, 50.0, status="draft")
    measured_unit(alice, 50.0, status="withdrawn")
    assert propose_reference_set().stored.units == {}


def test_a_unit_with_ballast_is_named_with_the_reason_and_not_used(alice):
    unit = measured_unit(alice, 50.0, components=[{"role": "ballast", "key": "iron"}])
    stored = propose_reference_set().stored
    assert stored.units == {}
    assert stored.excluded == {str(unit.uid): "a part without function was found"}


def test_a_disputed_mass_leaves_the_unit_out_of_that_habit_alone(alice):
    unit = measured_unit(alice, 50.0)
    unit.measurements.filter(key="mass").update(review_state="disputed")
    published(unit)
    proposal = propose_reference_set()
    assert str(unit.uid) in proposal.stored.units and proposal.sized[MASS] == 0


def test_a_proposal_stores_nothing_and_changes_no_verdict(alice):
    units = measured_units(alice)
    before = [made.payload for made in assess_units(units)]
    list(moved_by(propose_reference_set()))
    assert ReferenceSet.objects.count() == Entry.objects.count() == 0
    assert active_rulebook() is rulebook.load()
    assert [made.payload for made in assess_units(units)] == before
    assert Assessment.objects.filter(confirmed_only=False).count() == len(units)


def test_in_force_it_counts_in_every_assessment_and_says_so(alice):
    units = measured_units(alice)
    assess_units(units)
    stored = propose_reference_set().stored
    assert activate_reference_set(stored, alice)
    made = assess_units(units)
    for each in made:
        assert each.rulebook == f"{rulebook.load().version}+{stored.version}"
        assert (each.payload["rulebook"], each.payload["reference_set"]) == (
            each.rulebook, stored.version)
    # The old ones stay readable.
    assert Assessment.objects.filter(confirmed_only=False).count() == 2 * len(units)


def test_who_put_it_into_force_is_logged(alice):
    measured_units(alice)
    stored = propose_reference_set().stored
    activate_reference_set(stored, alice)
    entry = Entry.objects.get()
    assert (entry.actor, entry.action) == (alice, "reference_set_activated")
    assert entry.detail == {"version": stored.version} and stored.author == alice


def test_the_same_evidence_again_is_the_same_set(alice):
    measured_units(alice)
    first = propose_reference_set().stored
    activate_reference_set(first, alice)
    again = propose_reference_set()
    assert again.stored == first and again.is_active
    assert not activate_reference_set(again.stored, alice)
    assert ReferenceSet.objects.count() == Entry.objects.count() == 1


def test_new_evidence_makes_the_next_number_and_one_is_in_force(alice):
    measured_units(alice)
    activate_reference_set(propose_reference_set().stored, alice)
    measured_unit(alice, 200.0)
    second = propose_reference_set()
    assert second.active.number == 1
    activate_reference_set(second.stored, None)
    assert list(ReferenceSet.objects.values_list("number", "is_active")) == [(2, True), (1, False)]


def test_units_that_were_withdrawn_bring_an_earlier_set_back(alice):
    units = measured_units(alice)
    first = propose_reference_set().stored
    activate_reference_set(first, alice)
    extra = measured_unit(alice, 200.0)
    activate_reference_set(propose_reference_set().stored, alice)
    extra.status = "withdrawn"
    extra.save()
    activate_reference_set(propose_reference_set().stored, alice)
    assert ReferenceSet.objects.get(is_active=True) == first
    assert len(units) == 14 and ReferenceSet.objects.count() == 2


def test_units_whose_verdict_would_change_are_named(alice):
    # By mass alone at the low end of the mains, of which its loads say nothing: 55 g speak of
    # 5 W · 2.2^1.73 = 19.5 W by the prior, of 3 W where every unit gives 0.055 W a gram.
    for grams in range(20, 160, 10):
        unit = measured_unit(alice, float(grams), 0.055 * grams)
        # Lost twice: beside a single lost load, which may be spoilt, a habit has its say.
        lost = unit.measurements.get(key="lost")
        lost.pk, lost.key = None, "lost-again"
        lost.save()
        published(unit)
    weighed = measured_unit(alice, 55.0)
    moved = list(moved_by(propose_reference_set()))
    assert [each.pk for each in moved] == [weighed.pk]
    (old, p), (new, q) = moved[0].before, moved[0].after
    assert (old, new) == ("possible", "doubtful") and p > 0.5 > q


def test_other_habits_are_learned_from_the_sizes_of_their_own_rules(alice):
    for grams in range(20, 160, 10):
        watts = law(grams)
        bulk = {"role": "bulk_capacitor", "key": "bulk", "nominal": 1.2e-6 * watts}
        measured_unit(alice, float(grams), claims=[WIDE_INPUT], components=[bulk])
    habit = learned()["power/bulk_capacitance_per_watt"]
    # Universal input, 1.2 µF a watt as marked; a marking is worth 0.9667 of what it says.
    assert habit["slope"] == pytest.approx(1.0, abs=1e-6)
    assert exp(habit["middle"] - habit["intercept"]) == pytest.approx(1.2 * 0.9667, rel=1e-3)


def test_queries_do_not_grow_with_the_number_of_units(alice, django_assert_max_num_queries):
    measured_units(alice)
    with django_assert_max_num_queries(15):
        propose_reference_set()
