"""How much is said about each row: one query, of what everybody reads."""
import pytest
from django.utils import timezone

from teardowns.models import Comment, CommentState
from teardowns.presenting.discussion_counts import author_record, discussion_counts, talk_of

pytestmark = pytest.mark.django_db


def comment(unit, author, ref="", **fields):
    return Comment.objects.create(unit=unit, author=author, ref=ref, text="x",
                                  written_at=timezone.now(), **fields)


def test_rows_and_the_whole_are_counted_in_one_query(unit, bob, django_assert_num_queries):
    for ref in ("", "measurement/mass", "measurement/mass"):
        comment(unit, bob, ref)
    with django_assert_num_queries(1):
        found = discussion_counts(unit)
    assert {ref: one.words for ref, one in found.items()} == {
        "": "3 comments", "measurement/mass": "2 comments"}
    assert found["measurement/mass"].href.endswith("?about=measurement%2Fmass")


def test_what_not_everybody_reads_does_not_count(unit, bob, mona):
    comment(unit, bob, state=CommentState.HELD)
    comment(unit, bob, state=CommentState.RETRACTED)
    comment(unit, bob, state=CommentState.REMOVED, removal_reason="x")
    comment(unit, bob, is_internal=True)
    assert discussion_counts(unit)[""].number == 0


def test_a_row_that_nobody_spoke_of_has_a_link_as_well(unit, bob):
    comment(unit, bob, "measurement/mass")
    talk = talk_of(unit, discussion_counts(unit))
    assert talk("measurement/mass")[1] == "1 comment" and talk("port/a")[1] == "Discuss"


def test_a_moderator_reads_what_became_of_the_others_of_an_author(unit, bob):
    first = comment(unit, bob)
    assert author_record(first) == "The author has written nothing else."
    comment(unit, bob)
    comment(unit, bob, state=CommentState.RETRACTED)
    assert author_record(first) == (
        "Other comments of the author: 1 shown, 1 taken back by its author.")
