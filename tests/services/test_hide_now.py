"""What shows personal data goes out of sight at once, and is back after a day by itself."""
from datetime import timedelta

import pytest
from django.http import Http404
from django.utils import timezone

from core.audit.models import Entry
from teardowns.models import Decision, HiddenNow, Statement, Unit
from teardowns.services.hide_now import hide_now, keep_hidden, lapse_hidden, show_again
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow
from tests.published import published

pytestmark = pytest.mark.django_db
WHY = {"code": "personal_data", "facts": "A parcel label with an address."}


@pytest.fixture
def public(unit):
    published(unit)
    return unit


def hidden_by(person, unit):
    return hide_now(by=person, about=f"unit/{unit.pk}", reason="a parcel label in photo 1")


def a_day_later():
    HiddenNow.objects.update(until=timezone.now() - timedelta(seconds=1))


@pytest.mark.parametrize("name", ["alice", "rita", "mona"])
def test_its_contributor_a_reviewer_and_a_moderator_may(public, request, name):
    hidden = hidden_by(request.getfixturevalue(name), public)
    assert not Unit.objects.published().exists() and hidden.until > timezone.now()
    assert Statement.objects.get().decision == Decision.HIDE


@pytest.mark.parametrize("name", ["bob", "ada"])
def test_nobody_else_may(public, request, name):
    with pytest.raises(Http404):
        hidden_by(request.getfixturevalue(name), public)
    assert Unit.objects.published().exists()


def test_a_suspended_reviewer_may_not(public, rita):
    rita.suspended_at = timezone.now()
    with pytest.raises(Http404):
        hidden_by(rita, public)


def test_it_is_back_after_a_day_unless_somebody_confirmed_it(public, rita):
    hidden_by(rita, public)
    assert lapse_hidden() == 0 and not Unit.objects.published().exists()
    a_day_later()
    assert lapse_hidden() == 1 and Unit.objects.published().get() == public
    assert lapse_hidden() == 0
    assert Entry.objects.filter(action="hiding_lapsed").count() == 1


def test_confirmed_it_stays_until_another_moderator_shows_it(public, rita, mona, milo):
    hidden = hidden_by(rita, public)
    keep_hidden(moderator=mona, hidden_pk=hidden.pk, **WHY)
    a_day_later()
    assert lapse_hidden() == 0 and not Unit.objects.published().exists()
    with pytest.raises(NotNow, match="another moderator"):
        show_again(moderator=mona, hidden_pk=hidden.pk, **WHY)
    show_again(moderator=milo, hidden_pk=hidden.pk, code="put_right", facts="Label covered.")
    assert Unit.objects.published().get() == public


def test_who_hid_it_may_show_it_again_and_not_confirm_it(public, mona):
    hidden = hidden_by(mona, public)
    with pytest.raises(NotNow, match="another moderator"):
        keep_hidden(moderator=mona, hidden_pk=hidden.pk, **WHY)
    show_again(moderator=mona, hidden_pk=hidden.pk, code="other", facts="The wrong record.")
    assert Unit.objects.published().exists()


def test_a_moderator_does_not_decide_about_what_is_theirs(public, rita, mona):
    hidden = hidden_by(rita, public)
    Unit.objects.update(contributor=mona)
    for decide in (keep_hidden, show_again):
        with pytest.raises(Http404):
            decide(moderator=mona, hidden_pk=hidden.pk, **WHY)


def test_a_second_time_is_refused(public, rita, mona):
    hidden_by(rita, public)
    with pytest.raises(NotNow, match="already"):
        hidden_by(mona, public)
    assert HiddenNow.objects.count() == 1


def test_after_it_ended_nothing_is_decided(public, rita, mona):
    hidden = hidden_by(rita, public)
    a_day_later()
    with pytest.raises(NotNow):
        keep_hidden(moderator=mona, hidden_pk=hidden.pk, **WHY)


def test_a_photo_is_hidden_and_its_record_is_not(photo, rita):
    published(photo.unit)
    hide_now(by=rita, about=f"photo/{photo.pk}", reason="a face is mirrored in the case")
    assert HiddenNow.objects.in_force().of("photo", photo.pk).exists()
    assert Unit.objects.published().exists()


def test_what_is_to_be_seen_has_to_be_said(public, rita):
    with pytest.raises(NoReason):
        hide_now(by=rita, about=f"unit/{public.pk}", reason=" ")


@pytest.mark.parametrize("about", ["reply/1", "unit/999", "unit/x", "photo/²", "", "unit/1/2/3"])
def test_what_is_not_there_is_not_found(public, mona, about):
    with pytest.raises(Http404):
        hide_now(by=mona, about=about.replace("1", "777"), reason="something")


@pytest.mark.parametrize("state", ["draft", "submitted", "sent_back", "withdrawn"])
def test_what_is_not_public_cannot_be_hidden_so_no_draft_is_frozen_by_a_stranger(
        unit, alice, rita, mona, state):
    Unit.objects.update(status=state)
    for person in (alice, rita, mona):
        with pytest.raises(Http404):
            hidden_by(person, unit)
    assert Unit.objects.get().quarantined_at is None
