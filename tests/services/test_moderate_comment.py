"""A moderator shows what waited, or removes what breaks a rule: with a reason, never their own."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import CommentState, Notice, Statement
from teardowns.services.moderate_comment import release_comment, remove_comment
from teardowns.services.state_reasons import NoReason
from teardowns.services.write_comment import edit_comment, write_comment
from teardowns.workflow import NotNow
from tests.published import published

pytestmark = pytest.mark.django_db
WHY = {"code": "spam", "facts": "It names a shop."}


@pytest.fixture
def waiting(unit, bob):
    published(unit)
    return write_comment(author=bob, thing=unit, text="Hello")


def test_a_comment_that_waited_is_shown_and_then_people_are_told(waiting, mona):
    release_comment(moderator=mona, pk=waiting.pk, version=1)
    waiting.refresh_from_db()
    assert waiting.state == CommentState.SHOWN
    assert set(Notice.objects.values_list("kind", "person__username")) == {
        ("comment", "alice"), ("comment_shown", "bob")}
    assert Entry.objects.filter(action="comment_released").count() == 1


def test_it_is_shown_once(waiting, mona):
    release_comment(moderator=mona, pk=waiting.pk, version=1)
    with pytest.raises(NotNow):
        release_comment(moderator=mona, pk=waiting.pk, version=2)


def test_what_was_edited_since_it_was_read_is_not_shown_unread(waiting, mona, bob):
    edit_comment(author=bob, pk=waiting.pk, version=1, text="Buy here")
    with pytest.raises(NotNow, match="Read it once more"):
        release_comment(moderator=mona, pk=waiting.pk, version=1)
    assert not Notice.objects.exists()


def test_a_removed_comment_has_a_statement_of_which_its_author_hears_once(waiting, mona):
    statement = remove_comment(moderator=mona, pk=waiting.pk, **WHY)
    waiting.refresh_from_db()
    assert waiting.state == CommentState.REMOVED and waiting.removal_reason == statement.rule
    notice = Notice.objects.get()
    assert notice.kind == "comment_removed" and str(statement.uid) in notice.address
    assert Statement.objects.get().addressee == waiting.author
    assert Entry.objects.filter(action="comment_removed").get().reason == statement.rule


@pytest.mark.parametrize("why", [{"code": "spam", "facts": " "}, {"code": "", "facts": "x"}])
def test_without_a_reason_nothing_is_removed(waiting, mona, why):
    with pytest.raises(NoReason):
        remove_comment(moderator=mona, pk=waiting.pk, **why)
    waiting.refresh_from_db()
    assert waiting.state == CommentState.HELD


@pytest.mark.parametrize("name", ["bob", "rita", "ada"])
def test_nobody_but_a_moderator_may(waiting, request, name):
    person = request.getfixturevalue(name)
    with pytest.raises(Http404):
        release_comment(moderator=person, pk=waiting.pk, version=1)
    with pytest.raises(Http404):
        remove_comment(moderator=person, pk=waiting.pk, **WHY)


def test_no_moderator_decides_about_their_own_words(unit, mona):
    published(unit)
    own = write_comment(author=mona, thing=unit, text="Hello")
    with pytest.raises(Http404):
        remove_comment(moderator=mona, pk=own.pk, **WHY)
