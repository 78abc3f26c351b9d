"""A server of objects that keeps by half, gives back something else or does not answer."""
import boto3
import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import storages

from core import object_storage
from core import settings as site
from core.outages import FilesAway, FilesDamaged
from teardowns.models import Photo
from teardowns.services.photo_files import original_name
from teardowns.services.receive_photo import receive_photo
from tests.drills.stand_in import StandIn
from tests.photographs import photograph
from tests.services.test_object_storage import BUCKET, bucket, made, server  # noqa: F401

pytestmark = pytest.mark.django_db
NAME = "ab/abc"


@pytest.fixture
def front(server, bucket, settings, monkeypatch):  # noqa: F811
    """It stands before the real server and does what `fault` says."""
    stand_in = StandIn(int(server.rpartition(":")[2]))
    monkeypatch.setattr(site, "S3_ENDPOINT", f"http://127.0.0.1:{stand_in.server_port}")
    settings.STORAGES = settings.STORAGES | {
        name: site.private(name) for name in ("originals", "pictures")}
    yield stand_in
    stand_in.shutdown()
    stand_in.server_close()


@pytest.mark.parametrize("fault", ["stored by half", "stored with a wrong byte", "refusing"])
def test_what_is_not_stored_whole_does_not_count_as_stored(front, fault):
    front.fault = fault
    with pytest.raises(FilesAway):
        storages["originals"].save(NAME, ContentFile(b"pixels" * 50))
    front.fault = ""
    storages["originals"].save(NAME, ContentFile(b"pixels" * 50))
    with storages["originals"].open(NAME) as file:
        assert file.read() == b"pixels" * 50


@pytest.mark.parametrize("fault", ["read by half", "read with a wrong byte", "cut while reading",
                                   "refusing"])
def test_nothing_else_than_was_stored_is_read(front, fault):
    storages["originals"].save(NAME, ContentFile(b"pixels" * 50))
    front.fault = fault
    with pytest.raises(FilesAway), storages["originals"].open(NAME) as file:
        file.read()


def test_a_photo_that_was_kept_by_half_has_no_row_and_is_kept_whole_later(
        front, alice, unit, tmp_path, server):  # noqa: F811
    path = photograph(tmp_path, "a.jpg")

    def receive():
        return receive_photo(contributor=alice, unit_pk=unit.pk, name="a.jpg", path=path).photo

    front.fault = "stored by half"
    with pytest.raises(FilesDamaged):
        receive()
    assert not Photo.objects.exists()
    front.fault = ""
    kept = boto3.client("s3", endpoint_url=server).get_object(
        Bucket=BUCKET, Key=f"originals/{original_name(receive().sha256)}")
    assert kept["Body"].read() == path.read_bytes()


def test_who_finds_no_place_is_told_at_once(front, monkeypatch):
    monkeypatch.setattr(object_storage, "LONGEST_FOR_A_PLACE", 0)
    for _ in range(object_storage.MOST_AT_ONCE):
        assert object_storage.places.acquire(timeout=0)
    try:
        with pytest.raises(FilesAway, match="Too many"):
            storages["originals"].exists(NAME)
    finally:
        for _ in range(object_storage.MOST_AT_ONCE):
            object_storage.places.release()
    assert not storages["originals"].exists(NAME)


def test_a_page_and_a_program_are_told_to_come_back(front, client, alice, unit, tmp_path):
    client.force_login(alice)
    client.raise_request_exception = False
    photo = receive_photo(contributor=alice, unit_pk=unit.pk, name="a.jpg",
                          path=photograph(tmp_path, "a.jpg")).photo
    front.fault = "refusing"
    answer = client.get(f"/units/{unit.pk}/photos/{photo.key}/320.webp")
    assert answer.status_code == 503 and answer["Retry-After"] == "5"
    assert "cannot reach its files" in answer.content.decode()
