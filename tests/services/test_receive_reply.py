"""A maker's statement: checked by a moderator with no part in it, versioned, never altered."""
from datetime import UTC, datetime

import pytest
from django.http import Http404

from core.audit.models import Entry
from core.stale import Stale
from teardowns.models import MakerAccount, Notice, Reply, ReplyState, Statement, Unit
from teardowns.models.replies import ReplyVersion
from teardowns.services.receive_reply import (
    answer_dispute,
    decline_reply,
    receive_reply,
    renew_reply,
    verify_reply,
)
from teardowns.services.state_reasons import NoReason
from teardowns.services.watch import watch
from teardowns.workflow import NotNow
from tests.published import published

pytestmark = pytest.mark.django_db
SAID = {"text": "We changed the fuse in March.", "author_name": "Veltrice Ltd",
        "check_hint": "Write to press@veltrice.example."}
CHECKED = {"name": "Veltrice Ltd", "checked_how": "They answered from their own domain."}


@pytest.fixture
def public(unit, milo):
    Unit.objects.update(maker="Veltrice")
    unit.refresh_from_db()
    published(unit, milo)
    return unit


@pytest.fixture
def sent(bob, public):
    return receive_reply(author=bob, unit_pk=public.pk, disputes=True, **SAID)


def last(reply):
    return reply.versions.order_by("-number").first()


def verified(reply, moderator, **more):
    return verify_reply(moderator=moderator, version_pk=last(reply).pk, **CHECKED | more)


def test_a_statement_waits_and_is_not_shown(sent):
    assert sent.state == ReplyState.WAITING and not Reply.objects.shown().exists()
    assert Entry.objects.filter(action="reply_received").count() == 1


def test_once_verified_it_is_shown_and_people_hear_of_it(sent, mona, public, rita):
    watch(person=rita, thing=public)
    verified(sent, mona)
    shown = Reply.objects.shown().get()
    assert (shown.now_text, shown.now_number, shown.now_disputes) == (SAID["text"], 1, True)
    assert set(Notice.objects.values_list("kind", "person__username")) == {
        ("reply_decided", "bob"), ("reply", "alice"), ("reply", "rita")}
    assert Notice.objects.get(person=sent.entered_by).words.endswith("beside the record now")
    assert MakerAccount.objects.get().person == sent.entered_by


def test_without_saying_how_it_was_checked_nothing_is_shown(sent, mona):
    with pytest.raises(NotNow, match="how it was checked"):
        verified(sent, mona, checked_how=" ")
    assert not Reply.objects.shown().exists()


def test_a_person_is_checked_once_for_a_maker_and_each_version_is_read(sent, mona, bob, public):
    verified(sent, mona, whole_maker=True)
    sent.refresh_from_db()
    renew_reply(author=bob, reply_pk=sent.pk, version=sent.version, text="In April, in fact.")
    assert Reply.objects.shown().get().now_text == SAID["text"]
    verified(sent, mona, checked_how="")
    assert Reply.objects.shown().get().now_text == "In April, in fact."
    assert MakerAccount.objects.get().maker == "Veltrice"
    assert list(sent.versions.values_list("text", flat=True)) == [SAID["text"],
                                                                  "In April, in fact."]


def test_a_check_for_one_unit_does_not_hold_for_another(sent, mona, bob, alice, milo):
    verified(sent, mona)
    other = Unit.objects.create(contributor=alice, title="Veltrice VQ-65", maker="Veltrice")
    published(other, milo)
    second = receive_reply(author=bob, unit_pk=other.pk, **SAID)
    with pytest.raises(NotNow):
        verified(second, mona, checked_how="")


def test_the_first_received_stands_first(sent, mona, rolf, public):
    later = receive_reply(author=rolf, unit_pk=public.pk, **SAID)
    Reply.objects.filter(pk=sent.pk).update(received_at=datetime(2027, 1, 1, tzinfo=UTC))
    for reply in (sent, later):
        verified(reply, mona)
    assert [one.pk for one in Reply.objects.shown()] == [later.pk, sent.pk]


@pytest.mark.parametrize("name", ["bob", "rita", "ada"])
def test_nobody_but_a_moderator_decides(sent, request, name):
    with pytest.raises(Http404):
        verified(sent, request.getfixturevalue(name))


def test_no_moderator_decides_about_their_own_statement_or_record(public, mona, unit):
    own = receive_reply(author=mona, unit_pk=public.pk, **SAID)
    with pytest.raises(Http404):
        verified(own, mona)
    Unit.objects.update(contributor=mona)
    other = Reply.objects.create(unit=public, author_name="x", entered_by=unit.contributor)
    version = ReplyVersion.objects.create(reply=other, number=1, text="x",
                                          received_at=other.received_at)
    with pytest.raises(Http404):
        decline_reply(moderator=mona, version_pk=version.pk, code="spam", facts="x")


def test_a_statement_that_is_not_shown_has_its_reasons(sent, mona):
    with pytest.raises(NoReason):
        decline_reply(moderator=mona, version_pk=last(sent).pk, code="spam", facts="")
    decline_reply(moderator=mona, version_pk=last(sent).pk, code="spam", facts="It sells things.")
    sent.refresh_from_db()
    assert sent.state == ReplyState.DECLINED and not Reply.objects.shown().exists()
    assert Statement.objects.get().addressee == sent.entered_by
    told = Notice.objects.get()
    assert told.person == sent.entered_by and told.words.startswith("it is not shown: Records")


def test_what_stands_keeps_standing_when_its_next_version_is_not_shown(sent, mona, bob):
    verified(sent, mona)
    sent.refresh_from_db()
    renew_reply(author=bob, reply_pk=sent.pk, version=sent.version, text="Buy ours.")
    decline_reply(moderator=mona, version_pk=last(sent).pk, code="spam", facts="It sells things.")
    assert Reply.objects.shown().get().now_text == SAID["text"]


def test_a_version_is_decided_once(sent, mona, milo):
    verified(sent, mona)
    with pytest.raises(NotNow):
        verify_reply(moderator=milo, version_pk=last(sent).pk, **CHECKED)


def test_one_answers_a_thing_once_and_then_by_versions(sent, bob, public, mona):
    with pytest.raises(NotNow, match="already"):
        receive_reply(author=bob, unit_pk=public.pk, **SAID)
    assert receive_reply(author=bob, unit_pk=public.pk, about="measurement/mass", **SAID)
    with pytest.raises(NotNow, match="still waits"):
        renew_reply(author=bob, reply_pk=sent.pk, version=1, text="Other words.")


def test_two_pages_of_one_author_lose_nothing(sent, bob, mona):
    verified(sent, mona)
    with pytest.raises(Stale) as stale:
        renew_reply(author=bob, reply_pk=sent.pk, version=1, text="Other words.")
    assert stale.value.current["text"] == SAID["text"]


def test_nobody_renews_anothers_reply(sent, rita):
    with pytest.raises(Http404):
        renew_reply(author=rita, reply_pk=sent.pk, version=1, text="Other words.")


def test_a_record_that_is_not_public_is_not_replied_to(bob, unit):
    with pytest.raises(Http404):
        receive_reply(author=bob, unit_pk=unit.pk, **SAID)


def test_a_dispute_is_open_until_somebody_says_what_came_of_it(sent, mona):
    version = verified(sent, mona)
    with pytest.raises(NotNow, match="what came of it"):
        answer_dispute(moderator=mona, version_pk=version.pk, answer=" ")
    answer_dispute(moderator=mona, version_pk=version.pk, answer="Measured again: the same.")
    assert Reply.objects.shown().get().now_answer == "Measured again: the same."
    with pytest.raises(NotNow):
        answer_dispute(moderator=mona, version_pk=version.pk, answer="Once more.")
