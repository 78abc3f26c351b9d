"""The page of replies, a first statement, and other words for it."""
import pytest

from teardowns.models import Measurement, Reply
from teardowns.presenting.discussion_thread import evidence_refs
from teardowns.services.receive_reply import receive_reply, verify_reply
from tests.published import published

pytestmark = pytest.mark.django_db
TYPED = {"author_name": "Veltrice Ltd", "check_hint": "press@veltrice.example", "language": "de",
         "text": "Wir haben die Sicherung *geändert*.", "disputes": "on"}


@pytest.fixture
def public(unit, milo, client, bob):
    published(unit, milo)
    client.force_login(bob)
    return unit


@pytest.fixture
def verified(public, bob, mona):
    said = TYPED | {"disputes": True}
    reply = receive_reply(author=bob, unit_pk=public.pk, **said)
    verify_reply(moderator=mona, version_pk=reply.versions.get().pk, name="Veltrice Ltd",
                 checked_how="They answered.")
    reply.refresh_from_db()
    return reply


def page(client, unit):
    return client.get(f"/units/{unit.pk}/replies/").content.decode()


def test_a_statement_is_kept_and_only_its_author_sees_it_until_it_was_checked(client, public):
    answer = client.post(f"/units/{public.pk}/replies/new/", TYPED)
    assert answer.url == f"/units/{public.pk}/replies/"
    mine = page(client, public)
    assert "waits for a moderator" in mine and "geändert" in mine
    client.logout()
    assert "geändert" not in page(client, public) and "No statement yet" in page(client, public)


def test_a_verified_one_stands_with_its_date_name_and_language(client, verified, public):
    client.logout()
    html = page(client, public)
    assert "Reply of Veltrice Ltd" in html and '<div class="said" lang="de">' in html
    assert "<em>geändert</em>" in html and "another review is pending" in html
    assert "Disputed by Veltrice Ltd on 20" in html


def test_a_dispute_stands_at_the_head_of_the_record(client, verified, public):
    html = client.get(public.get_absolute_url()).content.decode()
    head, facts, _ = html.partition('<dl class="facts">')
    assert facts and "Disputed by Veltrice Ltd on 20" in head


def test_how_it_can_be_checked_is_not_public(client, verified, public):
    client.logout()
    assert "press@" not in page(client, public)


@pytest.mark.parametrize(("wrong", "words"), [
    ({"text": ""}, "Write your statement"), ({"author_name": " "}, "whose statement"),
    ({"check_hint": ""}, "how a moderator can check"), ({"language": "<b>"}, "language tag"),
    ({"text": "x" * 8001}, "at most 8000")])
def test_what_is_wrong_is_told_with_all_that_was_typed_kept(client, public, wrong, words):
    answer = client.post(f"/units/{public.pk}/replies/new/", TYPED | wrong)
    html = answer.content.decode()
    assert answer.status_code == 200 and words in html and not Reply.objects.exists()
    assert ("Veltrice Ltd" in html or "author_name" in wrong) and "checked" in html


def test_an_answer_to_one_row_names_it(client, public):
    Measurement.objects.create(unit=public, key="mass", quantity="mass_total", value=0.05,
                               uncertainty=0.001, uncertainty_kind="interval",
                               author=public.contributor)
    published(public)
    address = f"/units/{public.pk}/replies/new/?about=measurement/mass"
    assert "answers Mass" in client.get(address).content.decode()
    client.post(address, TYPED)
    assert Reply.objects.get().about == "measurement/mass"


def test_other_words_are_the_next_version_and_the_first_stays_readable(
        client, verified, public, mona):
    address = f"/units/{public.pk}/replies/{verified.pk}/"
    assert "geändert*.</textarea>" in client.get(address).content.decode()
    client.post(address, TYPED | {"text": "Im April.", "version": verified.version})
    client.logout()
    assert "Im April." not in page(client, public)
    verify_reply(moderator=mona, version_pk=verified.versions.last().pk, name="Veltrice Ltd",
                 checked_how="")
    html = page(client, public)
    assert "Im April." in html and "Version 1, 20" in html and "geändert" in html


def test_an_old_page_shows_both_texts(client, verified, public):
    html = client.post(f"/units/{public.pk}/replies/{verified.pk}/",
                       TYPED | {"text": "Im April.", "version": 1}).content.decode()
    assert 'id="stale"' in html and "Im April.</textarea>" in html
    assert verified.versions.count() == 1


def test_nobody_else_renews_it_and_nobody_replies_to_what_is_not_public(client, verified, rita,
                                                                        alice):
    client.force_login(rita)
    assert client.get(f"/units/{verified.unit_id}/replies/{verified.pk}/").status_code == 404
    draft = type(verified.unit).objects.create(contributor=alice, title="Secret")
    for name in ("replies/", "replies/new/"):
        assert client.get(f"/units/{draft.pk}/{name}").status_code == 404


def test_the_page_asks_at_most_twelve_queries(client, verified, public,
                                              django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        page(client, public)


def test_each_row_of_evidence_can_be_answered_by_itself(client, public):
    refs = evidence_refs(public)
    assert refs and all(f"replies/new/?about={ref}" in page(client, public) for ref in refs)
