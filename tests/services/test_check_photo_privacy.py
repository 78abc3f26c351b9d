import pytest
from django.http import Http404

from teardowns.models import PhotoPrivacyCheck, Status
from teardowns.services.check_photo_privacy import check_photo_privacy

pytestmark = pytest.mark.django_db


def tick(author, photo, version=None, ticked=True):
    return check_photo_privacy(
        author=author, unit_pk=photo.unit_id, seen={photo.key: version or photo.version},
        ticked={photo.key} if ticked else set())


def test_a_tick_is_kept_for_the_version_that_was_seen(photo, alice):
    assert tick(alice, photo) == 1
    check = PhotoPrivacyCheck.objects.get()
    assert (check.photo, check.photo_version, check.author) == (photo, photo.version, alice)


def test_ticked_twice_it_is_kept_once(photo, alice):
    tick(alice, photo)
    tick(alice, photo)
    assert PhotoPrivacyCheck.objects.count() == 1


def test_a_photo_that_changed_since_is_not_ticked(photo, alice):
    assert tick(alice, photo, version=photo.version + 1) == 0
    assert not PhotoPrivacyCheck.objects.exists()


def test_a_tick_can_be_taken_back(photo, alice):
    tick(alice, photo)
    tick(alice, photo, ticked=False)
    assert not PhotoPrivacyCheck.objects.exists()


def test_what_was_not_asked_about_stays(photo, alice):
    tick(alice, photo)
    check_photo_privacy(author=alice, unit_pk=photo.unit_id, seen={}, ticked=set())
    assert PhotoPrivacyCheck.objects.exists()


def test_it_is_for_who_writes_on_the_sheet_while_it_is_open(photo, unit, alice, bob):
    with pytest.raises(Http404):
        tick(bob, photo)
    unit.status = Status.SUBMITTED
    unit.save()
    with pytest.raises(Http404):
        tick(alice, photo)
