"""Anybody reports; two who agree on personal data hide a photo for a day, and never a verdict."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import HiddenNow, Report, Unit
from teardowns.services.hide_now import show_again
from teardowns.services.receive_report import ReportRefused, receive_report
from tests.cast import person
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def public(photo):
    published(photo.unit)
    return photo.unit


@pytest.fixture
def carl(db):
    """Somebody with a published record."""
    carl = person("carl")
    published(Unit.objects.create(contributor=carl, title="Veltrice VQ-20"))
    return carl


def report(reporter, about, code="personal_data", text="A label is to be read."):
    return receive_report(reporter=reporter, about=about, code=code, text=text)


def test_somebody_who_did_not_sign_in_gets_a_receipt_and_the_moderators_a_case(public):
    received = report(None, f"unit/{public.pk}")
    assert received.uid and received.unit == public and received.state == "open"
    assert (received.due_at - received.received_at).total_seconds() == pytest.approx(3600, abs=5)
    assert Entry.objects.filter(action="report_received").count() == 1


def test_an_item_of_evidence_is_named(public, bob):
    received = report(bob, f"unit/{public.pk}/measurement/mass", "wrong_reading")
    assert received.about == f"unit/{public.pk}/measurement/mass"


def test_the_same_again_is_refused_and_leads_to_the_receipt(public, bob):
    first = report(bob, f"unit/{public.pk}")
    with pytest.raises(ReportRefused) as refused:
        report(bob, f"unit/{public.pk}")
    assert refused.value.receipt == first and Report.objects.count() == 1


@pytest.mark.parametrize("wrong", [{"code": "abuse"}, {"code": ""}, {"text": " "}])
def test_without_a_reason_or_words_it_is_refused(public, bob, wrong):
    with pytest.raises(ReportRefused):
        report(bob, f"unit/{public.pk}", **wrong)


def test_what_is_not_public_cannot_be_reported(unit, bob):
    with pytest.raises(Http404):
        report(bob, f"unit/{unit.pk}")


def test_two_people_one_with_a_record_hide_a_photo_for_a_day(public, photo, bob, carl):
    report(bob, f"photo/{photo.pk}")
    assert not HiddenNow.objects.exists()
    report(carl, f"photo/{photo.pk}")
    hidden = HiddenNow.objects.in_force().get()
    assert (hidden.kind, hidden.object_id, hidden.by) == ("photo", photo.pk, None)
    assert public.statements.get().automated


def test_they_hide_no_record_whatever_they_say(public, bob, carl):
    report(bob, f"unit/{public.pk}")
    report(carl, f"unit/{public.pk}")
    assert not HiddenNow.objects.exists() and Unit.objects.published().count() == 2


def test_another_reason_hides_nothing(public, photo, bob, carl):
    report(bob, f"photo/{photo.pk}", "spam")
    report(carl, f"photo/{photo.pk}", "spam")
    assert not HiddenNow.objects.exists()


def test_two_without_a_record_or_one_who_did_not_sign_in_hide_nothing(photo, public, bob, carl):
    report(bob, f"photo/{photo.pk}")
    report(person("dora"), f"photo/{photo.pk}")
    Report.objects.all().delete()
    report(None, f"photo/{photo.pk}")
    report(carl, f"photo/{photo.pk}")
    assert not HiddenNow.objects.exists()


def test_one_without_a_confirmed_address_does_not_count(photo, public, carl):
    report(person("dora", verified=False), f"photo/{photo.pk}")
    report(carl, f"photo/{photo.pk}")
    assert not HiddenNow.objects.exists()


def test_what_a_moderator_showed_again_is_not_hidden_by_the_rule_twice(
        photo, public, bob, carl, mona):
    report(bob, f"photo/{photo.pk}")
    report(carl, f"photo/{photo.pk}")
    show_again(moderator=mona, hidden_pk=HiddenNow.objects.get().pk, code="not_supported",
               facts="It is the plate of the unit.")
    report(person("dora"), f"photo/{photo.pk}")
    assert HiddenNow.objects.count() == 1
