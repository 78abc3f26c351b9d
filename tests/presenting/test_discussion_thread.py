"""Comments as they are printed: words, or the line in their place, and what can be done."""
import pytest
from django.utils import timezone

from teardowns.models import Comment, CommentState, Measurement
from teardowns.presenting.discussion_thread import discussion_thread, evidence_refs, with_trust
from tests.published import published

pytestmark = pytest.mark.django_db


def comment(unit, author, text="Hello", **fields):
    return Comment.objects.create(unit=unit, author=author, text=text, written_at=timezone.now(),
                                  **fields)


def shown(unit, reader, *, moderates=False, editable=True, names=None):
    comments = with_trust(Comment.objects.with_hidden()).order_by("pk")
    return discussion_thread(comments, reader, unit, names or {}, moderates=moderates,
                             editable={one.pk: editable for one in comments})


def test_the_author_may_change_and_take_back_and_others_may_not(unit, bob, rita):
    comment(unit, bob)
    own, = shown(unit, bob)
    other, = shown(unit, rita)
    assert own.may_change and own.may_retract and not (other.may_change or other.may_retract)
    late, = shown(unit, bob, editable=False)
    assert late.may_retract and not late.may_change


def test_a_moderator_reads_what_is_hidden_and_nobody_reads_what_is_gone(unit, bob, mona):
    comment(unit, bob, state=CommentState.RETRACTED)
    comment(unit, bob, state=CommentState.REMOVED, removal_reason="A rule.")
    for row in shown(unit, mona, moderates=True):
        assert row.html == "" and row.tombstone and not row.may_moderate


def test_a_removed_comment_names_nobody(unit, bob, mona):
    comment(unit, bob, state=CommentState.REMOVED, removal_reason="A rule.")
    row, = shown(unit, mona)
    assert row.author == row.role == "" and row.tombstone == "Removed by a moderator: A rule."


def test_who_speaks_in_which_role_stands_beside_the_name(unit, alice, bob, rita):
    for person in (alice, bob, rita):
        comment(unit, person)
    assert [row.role for row in shown(unit, bob)] == ["contributor of this record", "", "reviewer"]


def test_a_deleted_account_is_not_named(unit, bob):
    bob.deleted_at = timezone.now()
    bob.save()
    comment(unit, bob)
    row, = shown(unit, unit.contributor)
    assert row.author == "a former contributor"


def test_a_row_that_is_gone_is_said_to_be(unit, bob):
    comment(unit, bob, ref="measurement/none")
    row, = shown(unit, bob)
    assert row.about == "a row that is no longer there" and row.about_href == ""


def test_only_rows_of_the_version_that_stands_can_be_named(unit, alice):
    def measure(key):
        Measurement.objects.create(unit=unit, key=key, quantity="mass_total", value=0.05,
                                   uncertainty=0.001, uncertainty_kind="interval", author=alice)
    measure("mass")
    published(unit)
    measure("secret")
    assert "measurement/mass" in evidence_refs(unit)
    assert "measurement/secret" not in evidence_refs(unit)
