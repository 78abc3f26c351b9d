"""A photo in blocks: it goes on where it broke off, and says what became of it."""
import errno
import hashlib
import json
from uuid import uuid4

import pytest
from django.test import Client
from django.utils import timezone

from core.buckets import HOUR, take
from teardowns.models import Photo, PhotoUpload
from teardowns.services import receive_upload
from teardowns.services.receive_photo import NO_ROOM
from tests.photographs import damaged, photograph

pytestmark = pytest.mark.django_db


@pytest.fixture
def start(client, alice, unit):
    """Says that a file comes; the answer."""
    client.force_login(alice)

    def begun(content=b"", **said):
        about = {"name": "board.jpg", "size": len(content), "stage": "opened"} | said
        return client.post(f"/bench/{unit.pk}/photos/uploads/", json.dumps(about),
                           content_type="application/json")

    return begun


@pytest.fixture
def put(client, unit):
    """Sends one block of an upload; the answer."""
    def sent(uid, block, offset):
        return client.put(f"/bench/{unit.pk}/photos/uploads/{uid}/", block,
                          content_type="application/octet-stream", headers={
                              "Upload-Offset": str(offset)})
    return sent


@pytest.fixture
def content(tmp_path):
    return photograph(tmp_path).read_bytes()


def uid_of(answer):
    return answer.json()["upload"]


def left_in(settings):
    return [path for path in settings.INCOMING.rglob("*") if path.is_file()]


def test_a_start_names_the_upload_and_where_it_begins(start, content, alice, unit):
    answer = start(content)
    upload = PhotoUpload.objects.get(pk=uid_of(answer))
    assert answer.status_code == 201 and answer.json()["offset"] == 0
    assert (upload.author, upload.unit, upload.byte_size) == (alice, unit, len(content))


def test_a_block_says_how_far_the_file_has_come(start, put, content):
    uid = uid_of(start(content))
    answer = put(uid, content[:700], 0)
    assert (answer.status_code, answer.headers["Upload-Offset"], answer.content) == (204, "700",
                                                                                    b"")
    assert not Photo.objects.exists()


def test_the_last_block_makes_the_photo(start, put, client, content, settings):
    uid = uid_of(start(content))
    put(uid, content[:700], 0)
    answer = put(uid, content[700:], 700)
    photo = Photo.objects.get()
    assert answer.status_code == 201
    assert answer.json() == {"kept": f"/bench/{photo.unit_id}/photos/opened-1/"}
    assert photo.sha256 == hashlib.sha256(content).hexdigest()
    assert not left_in(settings)
    assert client.get(answer.json()["kept"]).status_code == 200


def test_a_block_that_does_not_follow_is_told_where_to_begin(start, put, content):
    uid = uid_of(start(content))
    put(uid, content[:700], 0)
    for offset in (0, 600, 701):
        answer = put(uid, content[offset:offset + 100], offset)
        assert (answer.status_code, answer.headers["Upload-Offset"]) == (409, "700")
    assert put(uid, content[700:], 700).status_code == 201


def test_a_broken_upload_goes_on_where_it_stopped(start, put, client, unit, content):
    uid = uid_of(start(content))
    put(uid, content[:700], 0)
    answer = client.get(f"/bench/{unit.pk}/photos/uploads/{uid}/")
    assert (answer.status_code, answer.json()) == (200, {"offset": 700})


def test_when_the_last_answer_was_lost_asking_again_gives_the_photo(start, put, client, unit,
                                                                     content):
    uid = uid_of(start(content))
    last = put(uid, content, 0)
    asked = client.get(f"/bench/{unit.pk}/photos/uploads/{uid}/")
    assert (asked.status_code, asked.json()) == (200, last.json())
    assert Photo.objects.count() == 1


def test_a_file_that_had_arrived_whole_is_taken_in_when_asked_for(start, client, unit, alice,
                                                                  content):
    upload = PhotoUpload.objects.get(pk=uid_of(start(content)))
    receive_upload.append_block(contributor=alice, upload=upload, offset=0, block=content)
    assert not Photo.objects.exists()
    asked = client.get(f"/bench/{unit.pk}/photos/uploads/{upload.pk}/")
    assert asked.json() == {"kept": f"/bench/{unit.pk}/photos/{Photo.objects.get().key}/"}


def test_a_refused_file_is_told_why_and_nothing_of_it_stays(start, put, client, unit, tmp_path,
                                                            settings):
    content = damaged(tmp_path).read_bytes()
    uid = uid_of(start(content))
    answer = put(uid, content, 0)
    assert answer.status_code == 422
    assert "The picture is damaged" in answer.json()["message"]
    assert not left_in(settings) and not Photo.objects.exists()
    asked = client.get(f"/bench/{unit.pk}/photos/uploads/{uid}/")
    assert (asked.status_code, asked.json()) == (422, answer.json())


@pytest.mark.parametrize("preferred", ["refusal-status=200", "wait=10, Refusal-Status=200"])
def test_a_script_may_prefer_200_for_a_refusal(start, client, unit, tmp_path, preferred):
    content = damaged(tmp_path).read_bytes()
    address = f"/bench/{unit.pk}/photos/uploads/{uid_of(start(content))}/"
    headers = {"Upload-Offset": "0", "Prefer": preferred}
    for answer in (client.put(address, content, headers=headers),
                   client.get(address, headers=headers)):
        assert answer.status_code == 200 and list(answer.json()) == ["refused"]
        assert "The picture is damaged" in answer.json()["refused"]
        assert answer.headers["Preference-Applied"] == "refusal-status=200"
        assert "Prefer" in answer.headers["Vary"]


def test_another_preference_leaves_a_refusal_422(client, alice, unit):
    client.force_login(alice)
    answer = client.post(f"/bench/{unit.pk}/photos/uploads/", "[]", content_type="text/plain",
                         headers={"Prefer": "refusal-status=201, return=minimal"})
    assert answer.status_code == 422 and "Preference-Applied" not in answer.headers


def test_a_file_that_changed_on_its_way_is_refused(start, put, content, settings):
    uid = uid_of(start(content, sha256=hashlib.sha256(content).hexdigest().upper()))
    put(uid, content[:700], 0)
    answer = put(uid, content[700:-1] + b"\0", 700)
    assert answer.status_code == 422 and "changed while" in answer.json()["message"]
    assert not left_in(settings) and not Photo.objects.exists()


def test_a_file_that_is_what_its_sender_said_is_taken(start, put, content):
    uid = uid_of(start(content, sha256=hashlib.sha256(content).hexdigest()))
    assert put(uid, content, 0).status_code == 201


def test_an_upload_that_nobody_went_on_with_is_not_known_any_more(start, put, client, unit,
                                                                  content):
    uid, whole = uid_of(start(content)), uid_of(start(content))
    put(uid, content[:700], 0)
    put(whole, content, 0)
    PhotoUpload.objects.update(changed_at=timezone.now() - receive_upload.KEPT)
    asked = client.get(f"/bench/{unit.pk}/photos/uploads/{uid}/")
    assert (asked.status_code, put(uid, content[700:], 700).status_code) == (404, 404)
    assert client.get(f"/bench/{unit.pk}/photos/uploads/{whole}/").status_code == 200


def test_a_full_disk_is_said_and_the_upload_goes_on_later(start, put, content, monkeypatch):
    uid = uid_of(start(content))
    put(uid, content[:700], 0)
    with monkeypatch.context() as full:
        full.setattr("teardowns.services.receive_upload.os.fsync", _no_space)
        answer = put(uid, content[700:], 700)
    assert (answer.status_code, answer.json()) == (507, {"message": NO_ROOM})
    assert put(uid, content[700:], 700).status_code == 201


def _no_space(descriptor):
    raise OSError(errno.ENOSPC, "No space left on device")


def test_a_file_that_the_unit_has_is_not_sent_again(start, put, content):
    first = put(uid_of(start(content)), content, 0)
    answer = start(content, sha256=hashlib.sha256(content).hexdigest())
    assert (answer.status_code, answer.json()) == (200, first.json())
    assert PhotoUpload.objects.count() == 1


@pytest.mark.parametrize("size, remedy", [(0, "Choose it again"), (-1, "Choose it again"),
                                          (40_000_001, "Send a smaller copy")])
def test_a_size_that_cannot_be_taken_is_refused_before_it_is_sent(start, size, remedy):
    answer = start(size=size)
    assert answer.status_code == 422 and remedy in answer.json()["message"]
    assert not PhotoUpload.objects.exists()


@pytest.mark.parametrize("said", [
    {"name": None}, {"name": 7}, {"name": "a\0b"}, {"size": None}, {"size": "12"}, {"size": 1.5},
    {"size": True}, {"size": []},
])
def test_a_start_without_a_name_or_a_size_is_refused(start, said):
    answer = start(b"12", **said)
    assert answer.status_code == 422
    assert "has no name or no size. Reload the page." in answer.json()["message"]


@pytest.mark.parametrize("body", ["", "{", "[]", "null", '"x"', "\xff", "[" * 100_000])
def test_what_is_no_json_is_refused_in_words(client, alice, unit, body):
    client.force_login(alice)
    answer = client.post(f"/bench/{unit.pk}/photos/uploads/", body.encode("latin-1"),
                         content_type="application/json")
    assert answer.status_code == 422 and "Reload the page." in answer.json()["message"]


@pytest.mark.parametrize("said", [{"stage": "nonsense"}, {"stage": None}, {"stage": ["opened"]},
                                  {"sha256": 5}, {"sha256": "ab"}])
def test_odd_extras_of_a_start_do_no_harm(start, said):
    assert start(b"12", **said).status_code == 201


def test_a_block_beyond_the_stated_size_is_not_taken(start, put, content, settings):
    uid = uid_of(start(content))
    put(uid, content[:700], 0)
    answer = put(uid, content[700:] + b"more", 700)
    assert (answer.status_code, answer.headers["Upload-Offset"]) == (409, "700")
    assert left_in(settings)[0].stat().st_size == 700


def test_a_block_that_is_too_large_is_not_taken(start, put, content, settings):
    uid = uid_of(start(content, size=3_000_000))
    answer = put(uid, bytes(receive_upload.LARGEST_BLOCK + 1), 0)
    assert answer.status_code == 413 and "too large" in answer.json()["message"]
    assert not left_in(settings)


@pytest.mark.parametrize("offset", ["", "x", "-1", "1.5", "²", "9" * 16])
def test_a_block_that_does_not_say_where_it_begins_is_refused(start, put, content, offset):
    uid = uid_of(start(content))
    assert put(uid, content, offset).status_code == 400
    assert PhotoUpload.objects.get().received == 0


def test_somebody_else_s_upload_is_not_found(start, put, client, bob, rita, mona, unit, content):
    uid = uid_of(start(content))
    for person in (bob, rita, mona):
        client.force_login(person)
        assert start_as(client, unit).status_code == 404
        assert put(uid, content, 0).status_code == 404
        assert client.get(f"/bench/{unit.pk}/photos/uploads/{uid}/").status_code == 404
    assert PhotoUpload.objects.get().received == 0


def start_as(client, unit):
    return client.post(f"/bench/{unit.pk}/photos/uploads/", '{"name": "a.jpg", "size": 5}',
                       content_type="application/json")


def test_an_upload_of_another_unit_is_not_found(start, client, alice, content, unit):
    other = type(unit).objects.create(contributor=alice, title="Another")
    uid = uid_of(start(content))
    assert client.get(f"/bench/{other.pk}/photos/uploads/{uid}/").status_code == 404
    assert client.get(f"/bench/{unit.pk}/photos/uploads/{uuid4()}/").status_code == 404


def test_a_sheet_that_was_sent_in_takes_no_more_blocks(start, put, unit, content):
    uid = uid_of(start(content))
    unit.status = "submitted"
    unit.save()
    assert put(uid, content, 0).status_code == 404
    assert start(content).status_code == 404


def test_anonymous_is_led_to_sign_in(client, unit):
    assert start_as(client, unit).url.startswith("/sign-in/")


def test_a_start_and_a_block_without_the_token_are_refused(start, alice, unit, content):
    uid = uid_of(start(content))
    client = Client(enforce_csrf_checks=True)
    client.force_login(alice)
    assert start_as(client, unit).status_code == 403
    answer = client.put(f"/bench/{unit.pk}/photos/uploads/{uid}/", content,
                        headers={"Upload-Offset": "0"})
    assert answer.status_code == 403


def test_it_rejects_other_methods(start, client, unit, content):
    uid = uid_of(start(content))
    assert client.get(f"/bench/{unit.pk}/photos/uploads/").status_code == 405
    assert client.post(f"/bench/{unit.pk}/photos/uploads/{uid}/").status_code == 405


def test_who_begins_too_many_uploads_is_told_when_to_come_back(client, alice, unit, settings):
    client.force_login(alice)
    take("uploads/account", alice.pk, settings.UPLOADS, HOUR, cost=settings.UPLOADS)
    answer = client.post(f"/bench/{unit.pk}/photos/uploads/", {"name": "a.jpg", "size": 9},
                         content_type="application/json")
    assert answer.status_code == 429 and 1 <= int(answer["Retry-After"]) <= 60
    assert not PhotoUpload.objects.exists()
