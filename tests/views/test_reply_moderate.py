"""Moderators check for whom a reply speaks; each decision has its reasons."""
import pytest

from teardowns.models import MakerAccount, Reply, ReplyState, Unit
from teardowns.services.receive_reply import receive_reply
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def waiting(unit, bob, mona, milo, client):
    Unit.objects.update(maker="Veltrice")
    unit.refresh_from_db()
    published(unit, milo)
    client.force_login(mona)
    reply = receive_reply(author=bob, unit_pk=unit.pk, text="We <b>changed</b> it.", disputes=True,
                          author_name="Veltrice Ltd", check_hint="press@veltrice.example")
    return reply.versions.get()


def decide(client, version, act, **typed):
    return client.post(f"/moderation/replies/{version.pk}/", {"act": act} | typed)


def test_the_list_says_what_to_do_and_by_when(client, waiting):
    html = client.get("/moderation/replies/").content.decode()
    assert "1 to look at" in html and "check for whom it speaks" in html and "7 days left" in html


def test_the_page_shows_how_it_can_be_checked_and_what_is_said(client, waiting):
    html = client.get(f"/moderation/replies/{waiting.pk}/").content.decode()
    assert "press@veltrice.example" in html and "We &lt;b&gt;changed&lt;/b&gt; it." in html
    assert 'value="Veltrice Ltd"' in html


def test_a_checked_one_is_shown_for_all_records_of_the_maker(client, waiting):
    answer = decide(client, waiting, "verify", name="Veltrice Ltd", checked_how="They answered.",
                    whole_maker="on")
    assert answer.url == "/moderation/replies/"
    assert Reply.objects.get().state == ReplyState.VERIFIED
    assert MakerAccount.objects.get().maker == "Veltrice"
    assert "look into the dispute" in client.get("/moderation/replies/").content.decode()


def test_without_a_check_it_is_told_what_is_missing(client, waiting):
    html = decide(client, waiting, "verify", name="Veltrice Ltd").content.decode()
    assert "Write how it was checked" in html and Reply.objects.get().state == ReplyState.WAITING


def test_one_that_breaks_a_rule_is_not_shown(client, waiting):
    assert "Choose a reason" in decide(client, waiting, "decline").content.decode()
    decide(client, waiting, "decline", code="attack", facts="It insults Alice.")
    assert Reply.objects.get().state == ReplyState.DECLINED


def test_a_dispute_is_answered(client, waiting):
    decide(client, waiting, "verify", name="Veltrice Ltd", checked_how="They answered.")
    decide(client, waiting, "answer", answer="Weighed again: the same.")
    assert "0 to look at" in client.get("/moderation/replies/").content.decode()
    client.logout()
    html = client.get(f"/units/{waiting.reply.unit_id}/replies/").content.decode()
    assert "Weighed again: the same." in html and "pending" not in html


@pytest.mark.parametrize("act", ["", "burn", "answer"])
def test_what_cannot_be_done_now_changes_nothing(client, waiting, act):
    assert decide(client, waiting, act, answer="x").status_code == 200
    assert Reply.objects.get().state == ReplyState.WAITING


def test_neither_its_author_nor_who_has_part_in_the_record_decides(client, waiting, mona, rita):
    Reply.objects.update(entered_by=mona)
    assert client.get(f"/moderation/replies/{waiting.pk}/").status_code == 404
    client.force_login(rita)
    assert decide(client, waiting, "verify", name="x", checked_how="x").status_code == 403
