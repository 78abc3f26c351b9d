"""Opening a correction: whose bench it becomes, and who is told."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns import access
from teardowns.models import Correction, Notice
from teardowns.services.drop_correction import drop_correction
from teardowns.services.open_correction import open_correction
from teardowns.services.quarantine_unit import set_out_of_sight
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow
from tests.corrections import WHY, corrected, public_unit, write
from tests.published import published


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def test_the_bench_is_its_authors_and_the_public_keeps_its_version(unit, alice, bob):
    correction = corrected(unit, bob)
    assert access.may_change(bob, unit) and not access.may_change(alice, unit)
    assert unit.is_public and correction.base == unit.publication
    assert (correction.status, correction.reason) == ("draft", WHY)


def test_the_contributor_is_told_once_and_not_of_their_own(unit, alice, bob):
    correction = corrected(unit, bob)
    notice, = Notice.objects.filter(person=alice)
    assert notice.words == WHY and notice.address.endswith(f"/corrections/{correction.pk}/")
    drop_correction(author=bob, unit_pk=unit.pk)
    corrected(unit, alice)
    assert Notice.objects.filter(person=alice).count() == 1


def test_it_is_logged_once_with_its_base(unit, bob):
    correction = corrected(unit, bob)
    entry, = Entry.objects.filter(action="correction_opened")
    assert (entry.actor, entry.subject) == (bob, f"correction/{correction.pk}")
    assert entry.detail["base"] == 1 and entry.reason == WHY


def test_a_second_one_is_told_who_has_the_first_and_since_when(unit, alice, bob):
    first = corrected(unit, bob)
    with pytest.raises(NotNow, match=f"bob has a correction.*{first.opened_at:%Y-%m-%d}"):
        open_correction(author=alice, unit_pk=unit.pk, reason=WHY)
    with pytest.raises(NotNow, match="You have a correction"):
        open_correction(author=bob, unit_pk=unit.pk, reason=WHY)
    assert Correction.objects.count() == 1


@pytest.mark.parametrize("reason", ["", "   wrong  "])
def test_a_reason_that_says_nothing_is_refused(unit, bob, reason):
    with pytest.raises(NoReason, match="how you know"):
        open_correction(author=bob, unit_pk=unit.pk, reason=reason)


@pytest.mark.parametrize("status", ["draft", "submitted", "in_review", "sent_back", "declined",
                                    "discarded"])
def test_what_was_never_public_is_not_there(unit, bob, status):
    unit.status = status
    unit.save()
    with pytest.raises(Http404):
        open_correction(author=bob, unit_pk=unit.pk, reason=WHY)


def test_what_is_withdrawn_or_in_quarantine_says_that_it_cannot_be(unit, bob):
    set_out_of_sight(unit, None, hide=True)
    with pytest.raises(NotNow):
        open_correction(author=bob, unit_pk=unit.pk, reason=WHY)
    unit.status, unit.quarantined_at = "withdrawn", None
    unit.save()
    with pytest.raises(NotNow):
        open_correction(author=bob, unit_pk=unit.pk, reason=WHY)


def test_what_came_to_nothing_is_taken_up_once_more(unit, bob):
    corrected(unit, bob)
    write(unit)
    earlier = drop_correction(author=bob, unit_pk=unit.pk)
    open_correction(author=bob, unit_pk=unit.pk, reason=WHY, again=earlier.pk)
    values = dict(unit.measurements.values_list("key", "value"))
    assert values["held"] == 13.0 and values["volts"] == 0.05
    assert not unit.claims.filter(key="class-2").exists()


def test_not_by_somebody_else_nor_on_another_version(unit, alice, bob):
    corrected(unit, bob)
    earlier = drop_correction(author=bob, unit_pk=unit.pk)
    with pytest.raises(Http404):
        open_correction(author=alice, unit_pk=unit.pk, reason=WHY, again=earlier.pk)
    unit.refresh_from_db()
    published(unit)
    with pytest.raises(NotNow, match="Another version"):
        open_correction(author=bob, unit_pk=unit.pk, reason=WHY, again=earlier.pk)
