"""One screen of what waits: counts, ages, and what nobody has taken on for 72 hours."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Approval, HiddenNow, Report, Review, Status, Unit
from teardowns.services.hide_now import hide_now
from teardowns.services.quarantine_unit import quarantine_unit
from teardowns.services.receive_report import receive_report
from teardowns.services.take_charge import take_charge
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/moderation/"


@pytest.fixture
def desk(client, mona):
    client.force_login(mona)
    return client


def waiting(unit, status, hours=1):
    Unit.objects.filter(pk=unit.pk).update(
        status=status, submitted_at=timezone.now() - timedelta(hours=hours))


def listed(page, key):
    """The part of the page under one heading."""
    return page.split(f'id="{key}"')[1].split("</section>")[0]


@pytest.mark.parametrize(("status", "key"), [
    ("submitted", "submitted"), ("in_review", "in_review"), ("sent_back", "sent_back")])
def test_a_record_stands_in_the_list_of_its_state(desk, unit, status, key):
    waiting(unit, status)
    page = desk.get(ADDRESS).content.decode()
    assert f"/moderation/{unit.pk}/" in listed(page, key)
    assert page.count(f'href="/moderation/{unit.pk}/"') == 1


def test_a_draft_is_its_author_s_alone(desk, unit):
    assert unit.title not in desk.get(ADDRESS).content.decode()


def test_reviewed_with_everything_decided_it_waits_for_publication(desk, unit, rita):
    waiting(unit, "in_review")
    review = Review.objects.create(unit=unit, reviewer=rita, no_conflict=True)
    assert unit.title in listed(desk.get(ADDRESS).content.decode(), "in_review")
    Review.objects.filter(pk=review.pk).update(closed_at=timezone.now(), ending="done")
    assert unit.title in listed(desk.get(ADDRESS).content.decode(), "ready")


def test_three_days_without_an_owner_are_marked_until_somebody_takes_it(desk, unit, milo):
    waiting(unit, "submitted", hours=73)
    assert "nobody for more than 72 h" in desk.get(ADDRESS).content.decode()
    take_charge(moderator=milo, subject=f"unit/{unit.pk}")
    page = desk.get(ADDRESS).content.decode()
    assert "nobody for more than 72 h" not in page and ">milo<" in listed(page, "submitted")


def test_an_owner_of_an_earlier_turn_does_not_count(desk, unit, milo):
    take_charge(moderator=milo, subject=f"unit/{unit.pk}")
    waiting(unit, "submitted", hours=-1)
    assert ">milo<" not in desk.get(ADDRESS).content.decode()


def test_the_most_harmful_report_comes_first_with_its_time_left(desk, unit, bob):
    published(unit)
    for code in ("spam", "personal_data"):
        receive_report(reporter=bob, about=f"unit/{unit.pk}", code=code, text="See there.")
    Report.objects.filter(code="personal_data").update(
        due_at=timezone.now() - timedelta(minutes=90))
    part = listed(desk.get(ADDRESS).content.decode(), "reports")
    assert part.index("personal data") < part.index("advertises") and "1 h overdue" in part


def test_what_is_hidden_and_in_quarantine_is_listed(desk, photo, rita, milo):
    published(photo.unit)
    hide_now(by=rita, about=f"photo/{photo.pk}", reason="a face")
    quarantine_unit(moderator=milo, unit_pk=photo.unit_id, code="spam", facts="A leaflet.")
    page = desk.get(ADDRESS).content.decode()
    assert "/moderation/hidden/" in listed(page, "hidden") and "23 h left" in page
    assert photo.unit.title in listed(page, "quarantined")


def test_two_hundred_waiting_items_cost_at_most_twelve_queries(
        desk, alice, rita, mona, django_assert_max_num_queries):
    now = timezone.now()
    units = Unit.objects.bulk_create(
        Unit(contributor=alice, title=f"Veltrice {n}", status=status, submitted_at=now)
        for status in (Status.SUBMITTED, Status.IN_REVIEW) for n in range(100))
    Review.objects.bulk_create(Review(unit=unit, reviewer=rita) for unit in units[100:150])
    Report.objects.bulk_create(Report(about=f"unit/{unit.pk}", unit=unit, code="spam", harm=1,
                                      text="Ads.", due_at=now) for unit in units)
    HiddenNow.objects.bulk_create(HiddenNow(kind="photo", object_id=n, reason="A face.",
                                            until=now + timedelta(hours=9)) for n in range(200))
    Approval.objects.bulk_create(Approval(action="role", subject=f"user/{n}", asked_by=mona,
                                          code="trust", reason="Sound.") for n in range(200))
    with django_assert_max_num_queries(12):
        page = desk.get(ADDRESS).content.decode()
    assert "50 more come up" in page
    with django_assert_max_num_queries(12):
        assert "200 open" in desk.get("/moderation/reports/").content.decode()


@pytest.mark.parametrize("name", ["alice", "rita", "ada"])
@pytest.mark.parametrize("address", [
    "/moderation/", "/moderation/reports/", "/moderation/appeals/", "/moderation/saved-replies/"])
def test_nobody_else_gets_in(client, request, name, address):
    client.force_login(request.getfixturevalue(name))
    assert client.get(address).status_code == 403


def test_somebody_who_did_not_sign_in_is_asked_to(client, db):
    assert "/sign-in/" in client.get(ADDRESS).url
