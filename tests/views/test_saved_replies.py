"""Saved replies: added, changed without losing anybody's words, retired."""
import pytest

from teardowns.models import SavedReply

pytestmark = pytest.mark.django_db
ADDRESS = "/moderation/saved-replies/"
TYPED = {"title": "Open it", "code": "incomplete", "text": "Open the transformer, please."}


@pytest.fixture
def desk(client, mona):
    client.force_login(mona)
    return client


def test_one_is_added_and_shown(desk):
    assert desk.post(ADDRESS, TYPED).url == ADDRESS
    assert TYPED["text"] in desk.get(ADDRESS).content.decode()


@pytest.mark.parametrize("missing", ["title", "text"])
def test_what_is_missing_is_named_and_the_rest_kept(desk, missing):
    page = desk.post(ADDRESS, TYPED | {missing: ""}).content.decode()
    assert 'class="err"' in page and not SavedReply.objects.exists()


def test_a_title_is_taken_once(desk):
    desk.post(ADDRESS, TYPED)
    page = desk.post(ADDRESS, TYPED | {"text": "Other words."}).content.decode()
    assert "with this title" in page and "Other words." in page and SavedReply.objects.count() == 1


def test_changed_by_two_at_once_both_texts_are_shown_and_none_is_lost(desk):
    desk.post(ADDRESS, TYPED)
    change = f"{ADDRESS}?change={SavedReply.objects.get().pk}"
    desk.post(change, TYPED | {"text": "First change.", "version": 1})
    page = desk.post(change, TYPED | {"text": "Second change.", "version": 1}).content.decode()
    assert "First change." in page and "Second change." in page
    assert SavedReply.objects.get().text == "First change." and 'value="2"' in page
    desk.post(change, TYPED | {"text": "Both changes.", "version": 2})
    assert SavedReply.objects.get().text == "Both changes."


def test_retired_it_is_offered_no_more(desk):
    desk.post(ADDRESS, TYPED)
    change = f"{ADDRESS}?change={SavedReply.objects.get().pk}"
    desk.post(change, {"act": "retire"})
    assert TYPED["text"] not in desk.get(ADDRESS).content.decode()
    assert desk.get(change).status_code == 404


@pytest.mark.parametrize("number", ["x", "9", "²"])
def test_what_is_not_there_is_not_found(desk, number):
    assert desk.get(f"{ADDRESS}?change={number}").status_code == 404


@pytest.mark.parametrize("name", ["alice", "rita", "ada"])
def test_nobody_else_keeps_any(client, request, name):
    client.force_login(request.getfixturevalue(name))
    assert client.post(ADDRESS, TYPED).status_code == 403 and not SavedReply.objects.exists()
