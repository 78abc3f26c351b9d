"""A file in blocks: nothing is lost where the connection breaks, nothing is written twice."""
import pytest

from teardowns.models import Photo, PhotoUpload
from teardowns.services.receive_photo import PhotoRefused
from teardowns.services.receive_upload import (
    WrongOffset,
    append_block,
    begin_upload,
    finish_upload,
    path_of,
)
from tests.photographs import damaged, photograph

pytestmark = pytest.mark.django_db


def begin(alice, unit, path, **more):
    return begin_upload(contributor=alice, unit_pk=unit.pk, name=path.name,
                        size=path.stat().st_size, **more)


def send(alice, upload, content, size=1000):
    for at in range(upload.received, len(content), size):
        upload = append_block(contributor=alice, upload=upload, offset=at,
                              block=content[at:at + size])
    return upload


def test_blocks_make_the_file_whole(alice, unit, tmp_path):
    path = photograph(tmp_path)
    upload = send(alice, begin(alice, unit, path), path.read_bytes())
    photo = finish_upload(contributor=alice, upload=upload)
    assert photo.byte_size == path.stat().st_size and not path_of(upload).exists()


def test_asking_again_for_the_end_makes_no_second_photo(alice, unit, tmp_path):
    path = photograph(tmp_path)
    upload = send(alice, begin(alice, unit, path), path.read_bytes())
    first = finish_upload(contributor=alice, upload=upload)
    upload.refresh_from_db()
    assert finish_upload(contributor=alice, upload=upload) == first
    assert Photo.objects.count() == 1


@pytest.mark.parametrize("offset", [0, 999, 1001])
def test_a_block_that_does_not_follow_is_told_where_to_begin(alice, unit, tmp_path, offset):
    path = photograph(tmp_path)
    upload = append_block(contributor=alice, upload=begin(alice, unit, path), offset=0,
                          block=path.read_bytes()[:1000])
    with pytest.raises(WrongOffset) as wrong:
        append_block(contributor=alice, upload=upload, offset=offset, block=b"x")
    assert wrong.value.expected == 1000


def test_what_a_crash_wrote_beyond_the_row_is_written_over(alice, unit, tmp_path):
    path = photograph(tmp_path)
    content = path.read_bytes()
    upload = append_block(contributor=alice, upload=begin(alice, unit, path), offset=0,
                          block=content[:1000])
    with path_of(upload).open("ab") as file:
        file.write(b"half a block that no row knows of")
    upload = send(alice, upload, content)
    assert path_of(upload).read_bytes() == content


@pytest.mark.parametrize("left", [0, 700])
def test_blocks_that_lie_on_another_host_are_asked_for_again(alice, unit, tmp_path, left):
    """Never a hole: the file would be as long as announced and not what was sent."""
    path = photograph(tmp_path)
    content = path.read_bytes()
    upload = append_block(contributor=alice, upload=begin(alice, unit, path), offset=0,
                          block=content[:1000])
    with path_of(upload).open("r+b") as file:
        file.truncate(left)
    with pytest.raises(WrongOffset) as wrong:
        append_block(contributor=alice, upload=upload, offset=1000, block=content[1000:2000])
    assert wrong.value.expected == left
    upload.refresh_from_db()
    send(alice, upload, content)
    assert path_of(upload).read_bytes() == content


def test_more_than_was_announced_is_not_taken(alice, unit, tmp_path):
    upload = begin(alice, unit, photograph(tmp_path))
    with pytest.raises(WrongOffset):
        append_block(contributor=alice, upload=upload, offset=0,
                     block=b"x" * (upload.byte_size + 1))


def test_a_file_that_is_no_picture_is_refused_for_good(alice, unit, tmp_path):
    path = damaged(tmp_path)
    upload = send(alice, begin(alice, unit, path), path.read_bytes())
    for _ in range(2):
        with pytest.raises(PhotoRefused):
            finish_upload(contributor=alice, upload=upload)
        upload.refresh_from_db()
    assert upload.refusal and not path_of(upload).exists()


def test_a_file_that_the_unit_has_needs_no_sending(alice, unit, tmp_path):
    path = photograph(tmp_path)
    photo = finish_upload(contributor=alice, upload=send(alice, begin(alice, unit, path),
                                                         path.read_bytes()))
    assert begin(alice, unit, path, sha256=photo.sha256) == photo


@pytest.mark.parametrize("size, words", [(0, "empty"), (10**9, "larger than")])
def test_a_size_that_cannot_be_taken_is_refused_at_once(alice, unit, size, words):
    with pytest.raises(PhotoRefused, match=words):
        begin_upload(contributor=alice, unit_pk=unit.pk, name="a.jpg", size=size)
    assert not PhotoUpload.objects.exists()
