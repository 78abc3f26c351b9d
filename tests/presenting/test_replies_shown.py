"""Replies where a page, a document or the head of a record prints them."""
import pytest
from django.template.loader import render_to_string
from django.utils import timezone

from teardowns.models import Reply
from teardowns.models.replies import ReplyVersion
from teardowns.presenting.replies_shown import replies_exported, unit_replies

pytestmark = pytest.mark.django_db


def version(reply, number, text, state="verified", **fields):
    decided = {} if state == "waiting" else {"decided_by": fields.pop("by"),
                                             "decided_at": timezone.now()}
    fields.pop("by", None)
    reason = {"decision_reason": "x"} if state == "declined" else {}
    return ReplyVersion.objects.create(reply=reply, number=number, text=text, state=state,
                                       received_at=timezone.now(), **decided, **reason, **fields)


@pytest.fixture
def reply(unit, bob):
    return Reply.objects.create(unit=unit, about="measurement/mass", author_name="Veltrice Ltd",
                                entered_by=bob, state="verified", check_hint="secret")


def test_the_newest_version_that_a_moderator_read_is_shown(unit, reply, mona):
    version(reply, 1, "One", by=mona)
    version(reply, 2, "Two", by=mona)
    version(reply, 3, "Three", "declined", by=mona)
    version(reply, 4, "Four", "waiting")
    shown, = unit_replies(unit, {"measurement/mass": "mass"})["replies"]
    assert (shown.number, shown.earlier, shown.about_words) == (2, 1, "mass")
    assert shown.html == "<p>Two</p>\n"


def test_one_query_brings_them_all(unit, reply, mona, django_assert_num_queries):
    version(reply, 1, "One", by=mona)
    with django_assert_num_queries(1):
        unit_replies(unit)


def test_a_dispute_marks_the_record_until_it_was_looked_into(unit, reply, mona):
    said = version(reply, 1, "One", by=mona, disputes=True)
    mark, = unit_replies(unit)["disputes"]
    assert mark == (f"Disputed by Veltrice Ltd on {timezone.now():%Y-%m-%d}; another review is "
                    "pending.")
    said.answer, said.answered_at = "The same.", timezone.now()
    said.save()
    assert unit_replies(unit)["disputes"] == []


def test_a_document_has_the_words_as_they_were_sent_and_nothing_private(unit, reply, mona):
    version(reply, 1, "*One*", by=mona, language="de")
    exported, = replies_exported(unit)
    assert exported == {"about": "measurement/mass", "by": "Veltrice Ltd", "version": 1,
                        "received": timezone.now().date().isoformat(), "language": "de",
                        "text": "*One*", "disputes": False, "answer": ""}


def test_the_part_of_the_unit_page_prints_them(unit, reply, mona):
    version(reply, 1, "One", by=mona, disputes=True)
    html = render_to_string("teardowns/_unit_replies.html", unit_replies(unit))
    assert "Reply of Veltrice Ltd" in html and "<p>One</p>" in html and 'class="dispute"' in html
