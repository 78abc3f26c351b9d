from datetime import datetime, timedelta

import pytest
from django.utils import timezone

from teardowns.models import Claim, PhotoPrivacyCheck, PrintedText, Submission, Unit
from teardowns.services.submission_needs import (
    TOO_MANY,
    has_something_printed,
    unchecked_photos,
    wait_of_new_account,
)
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("source, state, counts", [
    ("plate", "recorded", True), ("packaging", "recorded", True), ("plate", "not_found", True),
    ("plate", "not_readable", True), ("plate", "not_looked", False),
    ("packaging", "not_found", False)])
def test_a_text_or_the_word_that_there_is_no_plate_is_something_printed(
        unit, alice, source, state, counts):
    PrintedText.objects.create(unit=unit, key="t", source=source, state=state, author=alice)
    assert has_something_printed(unit) == counts


def test_a_claim_is_something_printed_and_nothing_is_not(unit, alice):
    assert not has_something_printed(unit)
    Claim.objects.create(unit=unit, key="c", kind="output", text="5 V 2 A", author=alice)
    assert has_something_printed(unit)


def test_a_photo_is_unchecked_until_somebody_ticked_it_as_it_is_now(photo, unit, bob):
    assert list(unchecked_photos(unit)) == [photo]
    PhotoPrivacyCheck.objects.create(photo=photo, photo_version=photo.version, author=bob)
    assert not unchecked_photos(unit).exists()
    type(photo).objects.update(version=photo.version + 1)
    assert list(unchecked_photos(unit)) == [photo]


def handed_in(author, ago):
    unit = Unit.objects.create(contributor=author, title="Another", status="submitted")
    submission = Submission.objects.create(unit=unit, author=author)
    Submission.objects.filter(pk=submission.pk).update(at=timezone.now() - ago)
    return unit


def test_a_new_account_hands_in_one_a_day(unit, alice):
    assert wait_of_new_account(alice, unit) == ""
    handed_in(alice, timedelta(hours=23))
    sentence = wait_of_new_account(alice, unit)
    written = sentence.partition("handed in from ")[2].removesuffix(" UTC on.")
    free = datetime.fromisoformat(written).replace(tzinfo=timezone.now().tzinfo)
    assert timedelta(minutes=58) < free - timezone.now() <= timedelta(hours=1)


def test_after_a_day_it_hands_in_the_next(unit, alice):
    handed_in(alice, timedelta(hours=24, minutes=1))
    assert wait_of_new_account(alice, unit) == ""


def test_three_wait_at_most_until_one_is_published(unit, alice):
    others = [handed_in(alice, timedelta(days=days)) for days in (9, 8, 7)]
    assert wait_of_new_account(alice, unit) == TOO_MANY
    published(others[0])
    assert wait_of_new_account(alice, unit) == ""


def test_what_was_handed_in_before_may_always_be_again(alice):
    units = [handed_in(alice, timedelta(hours=hours)) for hours in (1, 2, 3)]
    assert wait_of_new_account(alice, units[0]) == ""


def test_the_hand_ins_of_others_do_not_count(unit, alice, bob):
    handed_in(bob, timedelta(hours=1))
    assert wait_of_new_account(alice, unit) == ""
