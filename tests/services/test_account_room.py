"""How much one account may keep, and how a moderator gives more of it."""
import uuid
from pathlib import Path

import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Photo, PhotoUpload, Status, Unit
from teardowns.services.account_room import check_sheets, give_room, room_of
from teardowns.services.receive_photo import PhotoRefused, receive_photo
from teardowns.services.receive_recording import About, RecordingRefused, receive_recording
from teardowns.services.receive_recording_upload import begin_recording_upload
from teardowns.services.receive_upload import begin_upload
from teardowns.services.start_unit import start_unit
from teardowns.workflow import NotNow
from tests.photographs import photograph
from tests.recordings import thermal_log

pytestmark = pytest.mark.django_db
MORE = "ask a moderator for more room."


def keep(alice, unit, size):
    return Photo.objects.create(unit=unit, key=f"other-{size}", sha256=f"{size:064d}", author=alice,
                                byte_size=size, original_name="a.jpg", stage="other")


@pytest.fixture
def small(settings):
    settings.ACCOUNT_BYTES, settings.ACCOUNT_SHEETS = 1_000_000, 3


def test_a_photo_that_does_not_fit_is_refused_by_name_with_the_remedy(
        small, alice, unit, tmp_path):
    path = photograph(tmp_path)
    keep(alice, unit, 1_000_000 - path.stat().st_size + 1)
    with pytest.raises(PhotoRefused, match=r"front.jpg: .* more than the 0 GB .*" + MORE):
        receive_photo(contributor=alice, unit_pk=unit.pk, path=path, name="front.jpg")
    Photo.objects.update(byte_size=1_000_000 - path.stat().st_size)
    assert receive_photo(contributor=alice, unit_pk=unit.pk, path=path, name="front.jpg").is_new


def test_a_log_and_both_kinds_of_uploads_in_blocks_are_refused_before_the_first_block(
        small, alice, unit, tmp_path):
    keep(alice, unit, 999_999)
    about = About("thermal")
    for kind, begin in ((PhotoRefused, begin_upload), (RecordingRefused, begin_recording_upload)):
        more = {} if kind is PhotoRefused else {"about": about}
        with pytest.raises(kind, match=MORE):
            begin(contributor=alice, unit_pk=unit.pk, name="a", size=2, **more)
    with pytest.raises(RecordingRefused, match=MORE):
        receive_recording(contributor=alice, unit_pk=unit.pk, path=Path(thermal_log(tmp_path)),
                          name="a.csv", about=about)
    assert not PhotoUpload.objects.exists()


def test_files_of_others_and_sheets_that_are_handed_in_take_none_of_ones_room(
        small, alice, bob, unit):
    keep(bob, unit, 900_000)
    Unit.objects.create(contributor=alice, title="b", status=Status.SUBMITTED)
    room = room_of(alice)
    assert (room.bytes_kept, room.sheets_open, room.sheets_most) == (0, 1, 3)


def test_no_more_sheets_than_there_is_room_for_and_a_resend_opens_none(small, alice, unit):
    uid = uuid.uuid4()
    made = [start_unit(alice, each, {"title": "c"}) for each in (uid, uuid.uuid4())]
    with pytest.raises(NotNow, match=r"3 open sheets.*discard one, or " + MORE):
        start_unit(alice, uuid.uuid4(), {"title": "d"})
    assert start_unit(alice, uid, {"title": "c"}) == made[0]


def test_a_moderator_gives_a_multiple_and_it_is_logged(small, alice, mona, unit):
    keep(alice, unit, 1_000_000)
    give_room(moderator=mona, person_pk=alice.pk, times=2)
    alice.refresh_from_db()
    assert room_of(alice).bytes_most == 2_000_000
    check_sheets(alice)
    entry = Entry.objects.get(action="room_given")
    assert (entry.subject, entry.detail) == (f"user/{alice.pk}", {"times": 2})


def test_nobody_gives_themselves_room_nor_a_size_that_is_not_offered(mona, alice):
    with pytest.raises(Http404):
        give_room(moderator=mona, person_pk=mona.pk, times=2)
    with pytest.raises(NotNow):
        give_room(moderator=mona, person_pk=alice.pk, times=1000)
