"""Handing in: the page, what it keeps, what it asks for, and where it stands afterwards."""
import uuid

import pytest
from django.contrib.messages import get_messages
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from teardowns.models import (
    PhotoPrivacyCheck,
    ReviewRemark,
    Submission,
    Unit,
    UnsavedSection,
)
from teardowns.services.assess_units import assess_units
from tests.handing_in import (
    STATES,
    WHY,
    correction_of,
    hand_in,
    remark_on,
    sent,
    with_plate,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def address(unit):
    return reverse("bench_submit", args=[unit.pk])


@pytest.fixture
def bench(client, alice, unit):
    """Alice, signed in, with a sheet that may be handed in."""
    with_plate(unit, alice)
    client.force_login(alice)
    return client


def text_of(response):
    assert response.status_code == 200
    return response.content.decode()


def test_it_hands_in_and_says_where_it_stands(bench, unit, address):
    answer = bench.post(address, sent(message="Look at the slot."))
    assert answer.url == f"{address}#main"
    page = text_of(bench.get(address))
    assert "waiting for review" in page and "Look at the slot." in page and "CC-BY-4.0" in page
    assert reverse("bench_take_back", args=[unit.pk]) in page


def test_what_a_reviewer_will_ask_for_is_listed_with_where_it_is_entered(bench, unit, address):
    page = text_of(bench.get(address))
    assert "2 of 19" in page          # plate text, no serial number in it; one more is asked of it
    assert f"/bench/{unit.pk}/outside/#table-mass-total" in page


def test_when_something_is_missing_everything_typed_is_kept(bench, unit, address):
    page = text_of(bench.post(address, sent(own_rights="", message="Mind the <slot>.")))
    assert "not handed in yet" in page and "Mind the &lt;slot&gt;." in page
    assert "Mind the &lt;slot&gt;." in text_of(bench.get(address))
    assert not Submission.objects.exists() and Unit.objects.get().status == "draft"


def test_keeping_hands_nothing_in(bench, unit, address):
    assert bench.post(address, sent(act="keep", message="Later.")).url == f"{address}#main"
    assert "Later." in text_of(bench.get(address)) and not Submission.objects.exists()


def test_without_anything_printed_the_reason_stands_above(client, alice, unit, address):
    client.force_login(alice)
    page = text_of(client.post(address, sent()))
    assert "at least one claim" in page and "not handed in yet" in page


def test_each_photo_is_shown_large_enough_and_ticked_once(bench, photo, address):
    page = text_of(bench.get(address))
    assert f'<a href="{photo.get_absolute_url()}400.webp">' in page
    assert reverse("photo_cover", args=[photo.unit_id, photo.key]) in page
    tick = {f"photo-{photo.key}": "on", f"seen-{photo.key}": photo.version}
    bench.post(address, sent(own_rights="", **tick))
    assert PhotoPrivacyCheck.objects.filter(photo=photo).count() == 1
    assert bench.post(address, sent(**tick)).status_code == 302


def test_a_photo_that_changed_since_is_asked_about_again(bench, photo, address):
    tick = {f"photo-{photo.key}": "on", f"seen-{photo.key}": photo.version}
    type(photo).objects.update(version=photo.version + 1)
    assert "Look at this photo in full size" in text_of(bench.post(address, sent(**tick)))
    assert not PhotoPrivacyCheck.objects.exists()


def test_what_was_written_when_the_session_had_ended_is_there_after_signing_in(
        client, alice, unit, address):
    client.post(address, sent(message="Look at the slot first."))
    client.force_login(alice)
    assert "Look at the slot first." in text_of(client.get(address))
    assert not Submission.objects.exists()


def test_what_is_missing_is_named_above(bench, photo, address):
    page = text_of(bench.post(address, sent(own_rights="", third_party="")))
    for name in ("Solder side: Look at this photo", "Terms: Tick this",
                 "Made by somebody else: Choose one"):
        assert name in page


def test_remarks_are_listed_with_their_place_and_answered_on_the_way(bench, unit, mona, address):
    Unit.objects.update(status="sent_back")
    remark = remark_on(unit, mona)
    page = text_of(bench.get(address))
    assert "The photo says 1 A." in page and f"/bench/{unit.pk}/printed/#table-texts" in page
    assert "Answer it in a word" in text_of(bench.post(address, sent()))
    bench.post(address, sent(**{f"answer-{remark.pk}": "It says 2 A on the box."}))
    assert "It says 2 A on the box." in text_of(bench.get(address))
    assert ReviewRemark.objects.get().answered_at is not None


def test_an_answer_is_kept_until_all_of_them_are_there(bench, unit, mona, address):
    Unit.objects.update(status="sent_back")
    first, second = remark_on(unit, mona), remark_on(unit, mona, ref="", text="Which port?")
    page = text_of(bench.post(address, sent(**{f"answer-{first.pk}": "Read again."})))
    assert "Read again." in page and f'href="#id_answer-{second.pk}"' in page
    assert "Read again." in text_of(bench.get(address))


def test_sent_twice_under_one_key_it_is_handed_in_once(bench, address):
    form = sent(once=str(uuid.uuid4()))
    first, second = bench.post(address, form), bench.post(address, form)
    assert first["Location"] == second["Location"] and Submission.objects.count() == 1
    said = [str(message) for message in get_messages(second.wsgi_request)]
    assert any("handed in" in each for each in said)


def test_sent_twice_without_a_key_it_is_handed_in_once(bench, address):
    bench.post(address, sent())
    assert "waiting for review" in text_of(bench.post(address, sent()))
    assert Submission.objects.count() == 1


def test_handed_in_by_another_window_meanwhile_it_says_where_it_stands(bench, address, monkeypatch):
    def late(**_):
        Unit.objects.update(status="submitted")
        raise Http404
    monkeypatch.setattr("teardowns.views.bench_submit.check_photo_privacy", late)
    assert "waiting for review" in text_of(bench.post(address, sent(), follow=True))
    assert not Submission.objects.exists()


def test_a_new_account_is_told_before_it_fills_in_the_form(bench, alice, address):
    other = Unit.objects.create(contributor=alice, title="Another", status="submitted")
    Submission.objects.create(unit=other, author=alice)
    assert "one a day can be handed in" in text_of(bench.get(address))
    assert "can be handed in from" in text_of(bench.post(address, sent(message="Still here.")))
    assert "Still here." in text_of(bench.get(address))


def test_sections_with_unsaved_words_are_named(bench, unit, alice, address):
    UnsavedSection.objects.create(unit=unit, section="ports", author=alice)
    assert "no reviewer will see what you typed" in text_of(bench.get(address))


@pytest.mark.parametrize("state", [each for each in STATES if each != "discarded"])
def test_it_opens_in_every_state(bench, unit, address, state):
    Unit.objects.update(status=state)
    is_open = state in ("draft", "sent_back")
    assert ("<h1>Hand it in</h1>" in text_of(bench.get(address))) == is_open


def test_what_is_discarded_is_not_found(bench, address):
    Unit.objects.update(status="discarded")
    assert bench.get(address).status_code == 404


def test_what_a_moderator_looks_into_cannot_be_handed_in(bench, address):
    Unit.objects.update(quarantined_at=timezone.now())
    assert "looks into it" in text_of(bench.post(address, sent()))
    assert not Submission.objects.exists()


@pytest.mark.parametrize("who", ["bob", "rita", "mona"])
def test_others_find_nothing(client, unit, address, who, request):
    client.force_login(request.getfixturevalue(who))
    assert client.get(address).status_code == 404
    assert client.post(address, sent()).status_code == 404


def test_an_administrator_hands_nothing_in(client, ada, address):
    client.force_login(ada)
    assert client.post(address, sent()).status_code == 403


def test_a_suspended_person_reads_and_cannot_hand_in(bench, alice, address):
    type(alice).objects.update(suspended_at=timezone.now())
    assert bench.get(address).status_code == 200
    assert bench.post(address, sent()).status_code == 403
    assert not Submission.objects.exists()


def test_the_author_of_a_correction_hands_it_in_here(client, bob, unit, address):
    correction = correction_of(with_plate(unit, unit.contributor), bob)
    client.force_login(bob)
    assert client.post(address, sent()).status_code == 302
    correction.refresh_from_db()
    assert correction.status == "submitted"


def test_it_costs_at_most_twelve_queries(bench, unit, photo, mona, address,
                                         django_assert_max_num_queries):
    assess_units([unit])
    for _ in range(3):
        remark_on(unit, mona)
    for state in ("draft", "sent_back", "submitted"):
        Unit.objects.update(status=state)
        with django_assert_max_num_queries(12):
            bench.get(address)


def test_a_correction_costs_no_more(client, bob, unit, mona, address,
                                    django_assert_max_num_queries):
    correction = correction_of(unit, bob, status="sent_back")
    remark_on(unit, mona, correction=correction)
    client.force_login(bob)
    with django_assert_max_num_queries(12):
        assert "The photo says 1 A." in text_of(client.get(address))


def test_the_hand_in_before_is_shown_after_it_came_back(bench, unit, alice, address):
    hand_in(unit, alice, message="First try.")
    assert "First try." in text_of(bench.get(address))


def test_why_there_is_no_photo_is_told_once_by_each_author(bench, unit, alice, bob, address):
    hand_in(unit, alice)
    Unit.objects.update(status="sent_back")
    assert WHY in text_of(bench.get(address))
    Submission.objects.update(author=bob)
    assert WHY not in text_of(bench.get(address))
