"""Photos in a bucket: a real server of the S3 protocol, and the storage that the settings make."""
import shutil
import socket
import subprocess
import sys
import time
from pathlib import Path

import boto3
import pytest
from botocore.exceptions import EndpointConnectionError
from django.core.files.base import ContentFile
from django.core.files.storage import storages

from core import settings as site
from teardowns.services.cover_photo import cover_photo
from teardowns.services.photo_files import original_name
from teardowns.services.receive_photo import receive_photo
from teardowns.services.sweep_photo_files import sweep_photo_files
from tests.photographs import photograph

pytestmark = pytest.mark.django_db
BUCKET = "evidence"


@pytest.fixture(scope="session")
def server():
    """Its address; it ends with the session."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    command = shutil.which("moto_server") or str(Path(sys.executable).with_name("moto_server"))
    process = subprocess.Popen([command, "-H", "127.0.0.1", "-p", str(port)],
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    yield f"http://127.0.0.1:{port}"
    process.terminate()
    process.wait(10)


@pytest.fixture
def bucket(server, settings, monkeypatch):
    """The two storages as the settings make them for a bucket of this server."""
    for name in ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY"):
        monkeypatch.setenv(name, "of-the-test")
    monkeypatch.setenv("AWS_DEFAULT_REGION", "us-east-1")
    client = boto3.client("s3", endpoint_url=server)
    made(client)
    monkeypatch.setattr(site, "S3_BUCKET", BUCKET)
    monkeypatch.setattr(site, "S3_ENDPOINT", server)
    settings.STORAGES = settings.STORAGES | {
        name: site.private(name) for name in ("originals", "pictures")}
    yield client
    for entry in client.list_objects_v2(Bucket=BUCKET).get("Contents", ()):
        client.delete_object(Bucket=BUCKET, Key=entry["Key"])


def made(client):
    """The bucket, once the server answers."""
    for _ in range(100):
        try:
            return client.create_bucket(Bucket=BUCKET)
        except EndpointConnectionError:
            time.sleep(0.1)
    raise AssertionError("The server does not answer.")


def keys(client):
    return {entry["Key"] for entry in client.list_objects_v2(Bucket=BUCKET).get("Contents", ())}


@pytest.fixture
def photo(alice, unit, tmp_path, bucket):
    return receive_photo(contributor=alice, unit_pk=unit.pk, name="a.jpg",
                         path=photograph(tmp_path, "a.jpg")).photo


def test_the_original_and_the_pictures_lie_in_the_bucket(photo, bucket, tmp_path):
    kept = bucket.get_object(Bucket=BUCKET, Key=f"originals/{original_name(photo.sha256)}")
    assert kept["Body"].read() == (tmp_path / "a.jpg").read_bytes()
    assert keys(bucket) == {f"originals/{original_name(photo.sha256)}",
                            *(f"pictures/{row.path}" for row in photo.derivatives.all())}
    assert not (tmp_path / "originals").exists()


def test_a_page_gets_its_picture_from_there(client, alice, photo):
    client.force_login(alice)
    answer = client.get(f"/units/{photo.unit_id}/photos/{photo.key}/320.webp")
    assert b"".join(answer.streaming_content)[8:12] == b"WEBP"


def test_covering_makes_new_pictures_there_and_purges_the_old(
        alice, photo, bucket, django_capture_on_commit_callbacks):
    before = keys(bucket)
    with django_capture_on_commit_callbacks(execute=True):
        cover_photo(author=alice, photo=photo, box=(0.0, 0.0, 50.0, 50.0), reason="label")
    assert keys(bucket) & before == {f"originals/{original_name(photo.sha256)}"}
    assert len(keys(bucket)) == 1 + photo.derivatives.count()


def test_the_sweeper_names_what_is_missing_and_leaves_what_is_young(photo, bucket):
    storages["pictures"].save("ab/orphan", ContentFile(b"x"))
    row = photo.derivatives.first()
    storages["pictures"].delete(row.path)
    swept = sweep_photo_files()
    assert (swept.removed, swept.missing) == (0, (f"pictures: {row.path}",))
    assert "pictures/ab/orphan" in keys(bucket)
