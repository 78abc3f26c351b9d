"""Comments that wait: read, shown, or removed with a reason."""
import pytest

from teardowns.models import BoardFamily, Comment, CommentState, Part
from teardowns.services.write_comment import edit_comment, write_comment
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def waiting(unit, bob, client, mona):
    published(unit)
    client.force_login(mona)
    return write_comment(author=bob, thing=unit, text="Look at <b>this</b>")


def decide(client, comment, **typed):
    return client.post(f"/moderation/comments/{comment.pk}/", typed)


def test_the_list_shows_what_waits_with_its_place(client, waiting, bob, alice, rita):
    part = Part.objects.create(marking="QX123", curator=alice, accepted_at=waiting.written_at)
    family = BoardFamily.objects.create(name="Board A", slug="board-a", curator=alice)
    for thing in (part, family):
        write_comment(author=bob, thing=thing, text=f"About {thing}")
    write_comment(author=rita, thing=waiting.unit, text="Shown at once")
    html = client.get("/moderation/comments/").content.decode()
    assert "3 comments" in html and "Shown at once" not in html
    for words in ("Look at &lt;b&gt;this&lt;/b&gt;", "About QX123", "About Board A", "Veltrice"):
        assert words in html


def test_the_list_asks_at_most_twelve_queries(client, waiting, bob, django_assert_max_num_queries):
    for n in range(20):
        write_comment(author=bob, thing=waiting.unit, text=f"number {n}")
    with django_assert_max_num_queries(12):
        client.get("/moderation/comments/")


def test_one_is_shown(client, waiting):
    html = client.get(f"/moderation/comments/{waiting.pk}/").content.decode()
    assert "Show this comment" in html and "The author has written nothing else." in html
    assert decide(client, waiting, act="show", version=1).url == "/moderation/comments/"
    assert Comment.objects.get().state == CommentState.SHOWN


def test_one_that_was_edited_meanwhile_is_read_first(client, waiting, bob):
    edit_comment(author=bob, pk=waiting.pk, version=1, text="Other words")
    html = decide(client, waiting, act="show", version=1).content.decode()
    assert "Read it once more" in html and "Other words" in html
    assert "Look at &lt;b&gt;this&lt;/b&gt;</blockquote>" in html             # the earlier words
    assert Comment.objects.get().state == CommentState.HELD


def test_one_is_removed_with_a_reason(client, waiting):
    decide(client, waiting, act="remove", code="spam", facts="It names a shop.")
    assert Comment.objects.get().state == CommentState.REMOVED


def test_a_removal_without_facts_is_told_at_the_field(client, waiting):
    html = decide(client, waiting, act="remove", code="spam", facts="").content.decode()
    assert "Write what was seen" in html and 'value="spam" selected' in html
    assert Comment.objects.get().state == CommentState.HELD


def test_nonsense_changes_nothing(client, waiting):
    assert decide(client, waiting, act="burn").status_code == 200
    assert decide(client, waiting, act="show", version="x").status_code == 200
    assert Comment.objects.get().state == CommentState.HELD


def test_a_contributor_and_a_reviewer_may_not(client, waiting, bob, rita):
    for person in (bob, rita):
        client.force_login(person)
        assert client.get("/moderation/comments/").status_code == 403
        assert decide(client, waiting, act="show", version=1).status_code == 403
