"""The discussion of a unit: who reads and writes what, and what stands in place of words."""
from datetime import timedelta
from uuid import uuid4

import pytest
from django.utils import timezone

from core.buckets import take
from teardowns.models import Comment, HiddenNow, Measurement, Unit
from teardowns.services.moderate_comment import release_comment, remove_comment
from teardowns.services.write_comment import retract_comment, write_comment
from tests.published import published
from tests.reviews import handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def public(unit, milo):
    Measurement.objects.create(
        unit=unit, key="mass", quantity="mass_total", value=0.05, uncertainty=0.001,
        uncertainty_kind="interval", author=unit.contributor)
    published(unit, milo)
    return unit


def address(unit, about=""):
    return f"/units/{unit.pk}/discussion/" + (f"?about={about}" if about else "")


def page(client, unit, about=""):
    return client.get(address(unit, about)).content.decode()


def said(author, unit, text="Which core is it?", **more):
    return write_comment(author=author, thing=unit, text=text, **more)


def test_anybody_reads_and_is_asked_to_sign_in_to_write(client, public, rita):
    said(rita, public)
    html = page(client, public)
    assert "Which core is it?" in html and "Sign in</a> to write" in html
    assert "<textarea" not in html
    assert client.post(address(public), {"text": "Hello"}).url.startswith("/sign-in/")


def test_a_reviewers_comment_is_public_at_once(client, public, rita):
    client.force_login(rita)
    answer = client.post(address(public), {"text": "Hello *there*"})
    comment = Comment.objects.get()
    assert answer.url == f"{address(public)}?comment={comment.pk}#comment-{comment.pk}"
    client.logout()
    html = page(client, public)
    assert "Hello <em>there</em>" in html and f'id="comment-{comment.pk}"' in html


def test_a_new_accounts_comment_is_its_own_and_the_moderators_until_it_was_read(
        client, public, bob, mona, rita):
    client.force_login(bob)
    client.post(address(public), {"text": "Hello there"})
    assert "Waits for a moderator" in page(client, public)
    for person, sees in ((mona, True), (rita, False)):
        client.force_login(person)
        assert ("Hello there" in page(client, public)) == sees
    client.logout()
    assert "Hello there" not in page(client, public)


def test_a_comment_on_a_row_names_it_and_stands_on_its_own_page(client, public, rita):
    client.force_login(rita)
    client.post(address(public, "measurement/mass"), {"text": "With the cord?"})
    assert Comment.objects.get().ref == "measurement/mass"
    said(rita, public, "About something else")
    html = page(client, public, "measurement/mass")
    assert "With the cord?" in html and "About something else" not in html
    assert f'href="/units/{public.pk}/#measurement-mass"' in page(client, public)


def test_a_row_that_is_not_there_is_not_found(client, public):
    assert client.get(address(public, "measurement/none")).status_code == 404


def test_an_empty_comment_is_told_at_the_field(client, public, rita):
    client.force_login(rita)
    answer = client.post(address(public), {"text": "  "})
    html = answer.content.decode()
    assert answer.status_code == 200 and 'aria-invalid="true"' in html
    assert "Write something" in html and not Comment.objects.exists()


def test_words_that_are_too_long_are_kept_on_the_page(client, public, rita):
    client.force_login(rita)
    html = client.post(address(public), {"text": "long " * 801}).content.decode()
    assert "long long" in html and not Comment.objects.exists()


def test_a_form_sent_twice_writes_once(client, public, rita):
    client.force_login(rita)
    form = {"text": "Hello", "once": str(uuid4())}
    first, second = client.post(address(public), form), client.post(address(public), form)
    assert first["Location"] == second["Location"] and Comment.objects.count() == 1


def test_the_same_words_again_are_refused_with_the_words_kept(client, public, rita):
    client.force_login(rita)
    client.post(address(public), {"text": "Hello"})
    html = client.post(address(public), {"text": "Hello"}).content.decode()
    assert "already" in html and ">\nHello</textarea>" in html and Comment.objects.count() == 1


def test_thirty_an_hour_are_enough(client, public, rita):
    client.force_login(rita)
    for _ in range(30):
        assert not take("comments/account", rita.pk, 30, 3600)
    answer = client.post(address(public), {"text": "Hello"})
    assert answer.status_code == 429 and answer.headers["Retry-After"]


def test_lines_stand_where_words_were_taken_away(client, public, rita, mona, bob):
    kept = said(rita, public, "Kept words")
    for text in ("Retracted words", "Removed words", "Hidden words"):
        said(rita, public, text)
    one, two, three = Comment.objects.exclude(pk=kept.pk).order_by("pk")
    retract_comment(author=rita, pk=one.pk)
    remove_comment(moderator=mona, pk=two.pk, code="attack", facts="It insults Bob.")
    HiddenNow.objects.create(kind="comment", object_id=three.pk, unit=public, reason="x",
                             until=timezone.now() + timedelta(hours=1))
    client.force_login(bob)
    html = page(client, public)
    assert "Kept words" in html
    for words in ("Retracted words", "Removed words", "Hidden words"):
        assert words not in html
    assert "Taken back by its author." in html and "Hidden while a report" in html
    assert "Removed by a moderator: Discussion is about evidence, not about persons." in html


def test_links_of_who_has_nothing_published_are_not_links(client, public, bob, alice, mona):
    text = "[look](https://a.example)"
    for person in (bob, alice):
        comment = said(person, public, text)
        release_comment(moderator=mona, pk=comment.pk, version=1)
        text += " too"
    html = page(client, public)
    assert "[look](https://a.example)</p>" in html                    # bob's
    assert html.count('href="https://a.example" rel="nofollow ugc noopener"') == 1


def test_in_review_those_at_work_on_it_talk_and_nobody_reads_it_later(client, unit, rita, bob):
    take_on(rita, handed_in(unit))
    client.force_login(rita)
    client.post(address(unit), {"text": "Where was it weighed?"})
    client.force_login(unit.contributor)
    assert "Where was it weighed?" in page(client, unit)
    unit.refresh_from_db()
    published(unit)
    assert "Where was it weighed?" in page(client, unit)
    client.force_login(bob)
    assert "Where was it weighed?" not in page(client, unit)


def test_a_draft_is_nobody_elses_business(client, unit, bob):
    client.force_login(bob)
    assert client.get(address(unit)).status_code == 404
    client.force_login(unit.contributor)
    assert client.get(address(unit)).status_code == 200
    assert client.post(address(unit), {"text": "Hello"}).status_code == 404


def test_a_hidden_record_hides_its_discussion(client, public, rita, bob):
    said(rita, public)
    Unit.objects.update(quarantined_at=timezone.now())
    client.force_login(bob)
    assert client.get(address(public)).status_code == 404


def test_a_suspended_person_reads_and_hears_why_they_cannot_write(client, public, bob):
    bob.suspended_at = timezone.now()
    bob.save()
    client.force_login(bob)
    assert "not suspended" in page(client, public) and "<textarea" not in page(client, public)
    assert client.post(address(public), {"text": "Hello"}).status_code == 403


def test_a_long_discussion_has_pages_and_a_comment_leads_to_its_own(client, public, rita):
    Comment.objects.bulk_create(
        Comment(unit=public, author=rita, text=f"number {n}", written_at=timezone.now())
        for n in range(120))
    first = Comment.objects.order_by("pk").first()
    assert "number 119" in page(client, public) and "number 0<" not in page(client, public)
    html = client.get(f"{address(public)}?comment={first.pk}").content.decode()
    assert "number 0<" in html and 'rel="next"' in html


def test_it_asks_at_most_twelve_queries(client, public, rita, bob, django_assert_max_num_queries):
    for n in range(20):
        said(rita, public, f"number {n}", ref="measurement/mass" if n % 2 else "")
    client.force_login(bob)
    with django_assert_max_num_queries(12):
        page(client, public)
