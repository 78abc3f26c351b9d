"""One's own words: changed within a quarter of an hour, or taken back."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Comment, CommentState
from teardowns.services.write_comment import edit_comment, write_comment
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def comment(unit, rita, client):
    published(unit)
    client.force_login(rita)
    return write_comment(author=rita, thing=unit, text="First words")


def edit(client, comment, **typed):
    form = {"text": "Other words", "version": 1} | typed
    return client.post(f"/comments/{comment.pk}/edit/", form)


def test_the_form_holds_the_words(client, comment):
    html = client.get(f"/comments/{comment.pk}/edit/").content.decode()
    assert "First words</textarea>" in html and 'name="version" value="1"' in html


def test_other_words_are_kept_and_said_to_be_changed(client, comment):
    answer = edit(client, comment)
    assert answer.url == comment.get_absolute_url()
    html = client.get(answer.url).content.decode()
    assert "Other words" in html and "· changed 20" in html


def test_too_late_an_edit_says_what_to_do_and_keeps_what_was_typed(client, comment):
    Comment.objects.update(written_at=timezone.now() - timedelta(minutes=16))
    html = edit(client, comment).content.decode()
    assert "add another" in html and "Other words</textarea>" in html
    assert Comment.objects.get().text == "First words"


def test_an_edit_from_an_old_page_shows_both_texts_and_can_be_sent_again(client, comment, rita):
    edit_comment(author=rita, pk=comment.pk, version=1, text="Words from elsewhere")
    html = edit(client, comment).content.decode()
    assert "Words from elsewhere" in html and "Other words</textarea>" in html
    assert 'name="version" value="2"' in html
    assert edit(client, comment, version=2).status_code == 302


def test_nobody_elses_words_are_there_to_change(client, comment, mona):
    client.force_login(mona)
    assert client.get(f"/comments/{comment.pk}/edit/").status_code == 404
    assert edit(client, comment).status_code == 404
    assert client.post(f"/comments/{comment.pk}/retract/").status_code == 404


def test_taking_back_leaves_a_line(client, comment):
    answer = client.post(f"/comments/{comment.pk}/retract/")
    assert Comment.objects.get().state == CommentState.RETRACTED
    assert "Taken back by its author." in client.get(answer.url).content.decode()


def test_taking_back_twice_is_told(client, comment):
    for _ in range(2):
        answer = client.post(f"/comments/{comment.pk}/retract/", follow=True)
    assert "already" in answer.content.decode()
