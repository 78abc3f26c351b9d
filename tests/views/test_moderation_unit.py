"""A moderator's page of one record: publish, hand over, and the ways to every other decision."""
import re

import pytest
from django.utils import timezone

from core.audit.models import Entry
from teardowns.models import Charge, PrintedText, Publication, Review, Statement, Status, Unit
from teardowns.services.receive_report import receive_report
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(client, mona):
    client.force_login(mona)
    return client


@pytest.fixture
def reviewed(unit, rita):
    Unit.objects.update(status=Status.IN_REVIEW, submitted_at=timezone.now())
    Review.objects.create(unit=unit, reviewer=rita, no_conflict=True, ending="done",
                          closed_at=timezone.now())
    return unit


def address(unit):
    return f"/moderation/{unit.pk}/"


def once_of(page):
    return re.search(r'name="once" value="([^"]+)"', page).group(1)


def test_it_shows_state_review_reports_and_the_author_s_counts(desk, unit, bob):
    published(unit)
    receive_report(reporter=bob, about=f"unit/{unit.pk}", code="spam", text="An advert inside.")
    page = desk.get(address(unit)).content.decode()
    assert "Published." in page and "An advert inside." in page and "published records" in page
    assert "bob" not in page                       # who reported is shown to nobody unasked


@pytest.mark.parametrize(("status", "offered", "not_offered"), [
    ("submitted", {"send_back", "decline", "quarantine"}, {"release"}),
    ("in_review", {"send_back", "decline", "quarantine"}, {"release"}),
    ("sent_back", {"quarantine"}, {"send_back", "decline", "release"}),
    ("declined", {"quarantine"}, {"send_back", "decline", "release"}),
])
def test_it_offers_what_the_state_allows(desk, unit, status, offered, not_offered):
    Unit.objects.update(status=status)
    page = desk.get(address(unit)).content.decode()
    assert all(f"/decide/{what}/" in page for what in offered)
    assert not any(f"/decide/{what}/" in page for what in not_offered)


def test_published_it_offers_withdrawal_merge_and_hiding(desk, unit):
    published(unit)
    page = desk.get(address(unit)).content.decode()
    assert f"/units/{unit.pk}/withdraw/" in page and "/merge/" in page and "/hide/?about=" in page


def test_it_says_what_was_said_against_which_row(desk, reviewed, alice, rita, rolf):
    PrintedText.objects.create(unit=reviewed, key="plate", source="plate", text="5V 3A",
                               author=alice)
    for who, said in ((rita, "disputed"), (rolf, "confirmed")):
        review, _ = Review.objects.get_or_create(
            unit=reviewed, reviewer=who, no_conflict=True, ending="done",
            defaults={"closed_at": timezone.now()})
        review.decisions.create(ref="printedtext/plate", evidence_version=1, decision=said,
                                reason="It says 2 A." if said == "disputed" else "")
    page = desk.get(address(reviewed)).content.decode()
    assert "1 disputed" in page and "<p>Printed on the rating plate: It says 2 A.</p>" in page


def test_reviewed_it_is_published_once_however_often_the_button_is_pressed(desk, reviewed):
    key = once_of(desk.get(address(reviewed)).content.decode())
    for _ in range(3):
        answer = desk.post(address(reviewed), {"act": "publish", "note": "", "once": key})
        assert answer["Location"] == address(reviewed)
    assert Publication.objects.count() == 1 and Unit.objects.published().get() == reviewed
    assert Entry.objects.filter(action="work_publish").count() == 1


def test_without_the_reviews_it_is_refused_and_says_why_and_keeps_the_note(desk, unit):
    Unit.objects.update(status=Status.IN_REVIEW, submitted_at=timezone.now())
    answer = desk.post(address(unit), {"act": "publish", "note": "First version."})
    page = answer.content.decode()
    assert answer.status_code == 200 and "no reviewer has closed a review" in page
    assert "First version." in page and not Publication.objects.exists()


def test_it_is_taken_on_and_handed_over(desk, unit, mona, milo):
    Unit.objects.update(status=Status.SUBMITTED)
    desk.post(address(unit), {"act": "take"})
    assert Charge.objects.get().owner == mona
    desk.post(address(unit), {"act": "hand-over", "to": "milo"})
    assert Charge.objects.get().owner == milo


@pytest.mark.parametrize("to", ["nobody-here", "alice", "", "mona"])
def test_it_is_handed_to_nobody_but_another_moderator(desk, unit, to):
    Unit.objects.update(status=Status.SUBMITTED)
    answer = desk.post(address(unit), {"act": "hand-over", "to": to})
    assert answer.status_code == 200 and not Charge.objects.exists()
    assert 'class="err"' in answer.content.decode()


def test_a_moderator_s_own_record_is_not_theirs_to_moderate(desk, unit, mona):
    Unit.objects.update(status=Status.SUBMITTED, contributor=mona)
    assert desk.get(address(unit)).status_code == 404
    assert desk.post(address(unit), {"act": "take"}).status_code == 404


@pytest.mark.parametrize("status", ["draft", "discarded"])
def test_what_was_not_handed_in_is_not_there(desk, unit, status):
    Unit.objects.update(status=status)
    assert desk.get(address(unit)).status_code == 404


@pytest.mark.parametrize("name", ["alice", "rita", "ada"])
def test_nobody_else_gets_in(client, request, unit, name):
    Unit.objects.update(status=Status.SUBMITTED)
    client.force_login(request.getfixturevalue(name))
    assert client.get(address(unit)).status_code == 403
    assert client.post(address(unit), {"act": "publish"}).status_code == 403


def test_it_costs_at_most_twelve_queries(desk, reviewed, bob, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        assert desk.get(address(reviewed)).status_code == 200
    assert not Statement.objects.exists()
