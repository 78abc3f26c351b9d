"""Photos and logs into one's own open sheet, by a program."""
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test.client import BOUNDARY, MULTIPART_CONTENT, encode_multipart

from teardowns.models import Photo, Recording
from tests.api.speaking import Program, faults_of
from tests.photographs import photograph
from tests.recordings import thermal_log

pytestmark = pytest.mark.django_db
BYTES = "application/octet-stream"


@pytest.fixture
def program(alice):
    return Program(alice)


@pytest.fixture
def picture(tmp_path):
    return photograph(tmp_path).read_bytes()


def send(program, unit, what, body, query="", **headers):
    return program.ask("POST", f"/bench/{unit.pk}/{what}{query}", body,
                       **{"content_type": BYTES} | headers)


def test_a_photo_is_sent_as_the_body(program, unit, picture):
    answer = send(program, unit, "photos", picture, "?stage=opened&name=a.jpg")
    assert answer.status_code == 201, answer.content
    assert faults_of(answer, "/bench/{unit}/photos", "post") == []
    photo = Photo.objects.get()
    assert (photo.stage, photo.original_name) == ("opened", "a.jpg")
    assert answer.json()["key"] == photo.key and answer.json()["is_new"]
    listed = program.get(f"/bench/{unit.pk}/photos")
    assert faults_of(listed, "/bench/{unit}/photos") == []
    assert listed.json()["photos"][0]["pictures"]


def test_a_photo_is_sent_in_a_form(program, unit, picture):
    form = encode_multipart(BOUNDARY, {"file": SimpleUploadedFile("b.jpg", picture)})
    answer = send(program, unit, "photos", form, content_type=MULTIPART_CONTENT)
    assert answer.status_code == 201 and Photo.objects.get().original_name == "b.jpg"


def test_the_same_file_is_the_same_photo(program, unit, picture):
    first = send(program, unit, "photos", picture)
    again = send(program, unit, "photos", picture)
    assert again.json() == first.json() | {"is_new": False}
    assert Photo.objects.count() == 1


def test_a_key_answers_the_same_file_alike_and_refuses_another(program, unit, picture, tmp_path):
    key = str(uuid4())
    first = send(program, unit, "photos", picture, Idempotency_Key=key)
    again = send(program, unit, "photos", picture, Idempotency_Key=key)
    assert (again.content, again["Answered-Before"]) == (first.content, "?1")
    other = photograph(tmp_path, "other.jpg", colour="blue").read_bytes()
    assert send(program, unit, "photos", other, Idempotency_Key=key).status_code == 422
    assert Photo.objects.count() == 1


@pytest.mark.parametrize("body", [b"no picture", b"", b"\x89PNG\r\n\x1a\n"])
def test_what_is_no_picture_is_refused_in_words(program, unit, body):
    answer = send(program, unit, "photos", body)
    assert answer.status_code == 422 and len(answer.json()["detail"]) > 20
    assert not Photo.objects.exists()


def test_a_form_without_a_file_is_refused(program, unit):
    form = encode_multipart(BOUNDARY, {"file": "words"})
    assert send(program, unit, "photos", form, content_type=MULTIPART_CONTENT).status_code == 422


def test_a_form_that_is_none_is_refused(program, unit):
    answer = send(program, unit, "photos", b"no form", content_type="multipart/form-data")
    assert answer.status_code in (400, 422)


def test_a_file_beyond_the_limit_is_refused(program, unit, monkeypatch):
    monkeypatch.setattr("teardowns.api.views.bench_files.MAX_BYTES", 100)
    assert send(program, unit, "photos", b"x" * 101).status_code == 413
    form = encode_multipart(BOUNDARY, {"file": SimpleUploadedFile("b.jpg", b"x" * 101)})
    assert send(program, unit, "photos", form, content_type=MULTIPART_CONTENT).status_code == 413


@pytest.mark.parametrize("query, parameter", [
    ("?stage=odd", "stage"), ("?name=%00", "name"), ("?colour=red", "colour")])
def test_what_is_said_of_a_file_is_checked(program, unit, picture, query, parameter):
    answer = send(program, unit, "photos", picture, query)
    assert answer.json()["errors"][0]["parameter"] == parameter
    assert not Photo.objects.exists()


def test_a_log_is_sent_as_the_body(program, unit, tmp_path):
    log = thermal_log(tmp_path).read_bytes()
    answer = send(program, unit, "recordings", log, "?kind=thermal&name=warm.csv")
    assert answer.status_code == 201, answer.content
    assert faults_of(answer, "/bench/{unit}/recordings", "post") == []
    assert Recording.objects.get().kind == "thermal"
    assert program.get(f"/bench/{unit.pk}/recordings").json()["recordings"][0]["sha256"] \
        == answer.json()["sha256"]


def test_a_log_without_its_kind_is_refused(program, unit):
    answer = send(program, unit, "recordings", b"a,b\n1,2\n")
    assert answer.json()["errors"] == [{"detail": "It is missing: add it.", "parameter": "kind"}]


@pytest.mark.parametrize("what", ["photos", "recordings?kind=thermal"])
def test_nobody_else_sends_a_file(bob, unit, picture, what):
    path = f"/bench/{unit.pk}/{what}"
    assert Program(bob).ask("POST", path, picture, content_type=BYTES).status_code == 404
    assert Program().ask("POST", path, picture, content_type=BYTES).status_code == 401
    assert not (Photo.objects.exists() or Recording.objects.exists())
