"""Files in a bucket: a real server of the S3 protocol, and the storage that the settings make."""
import os
import shutil
import socket
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import boto3
import pytest
from botocore.exceptions import EndpointConnectionError
from django.core.files.base import ContentFile
from django.core.files.storage import storages

from core import settings as site
from teardowns.services.cover_photo import cover_photo
from teardowns.services.local_copies import local_file
from teardowns.services.photo_files import original_name
from teardowns.services.read_recording import channels_of
from teardowns.services.receive_photo import receive_photo
from teardowns.services.sweep_files import sweep_files
from tests.photographs import photograph
from tests.recordings import THERMAL, lay_out

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
    """The storages as the settings make them for a bucket of this server."""
    for name in ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY"):
        monkeypatch.setenv(name, "of-the-test")
    monkeypatch.setenv("AWS_DEFAULT_REGION", "us-east-1")
    client = boto3.client("s3", endpoint_url=server)
    made(client)
    monkeypatch.setattr(site, "S3_BUCKET", BUCKET)
    monkeypatch.setattr(site, "S3_ENDPOINT", server)
    settings.STORAGES = settings.STORAGES | {
        name: site.private(name) for name in ("originals", "pictures", "channels")}
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
    swept = sweep_files()
    assert (swept.removed, swept.missing) == (0, (f"pictures: {row.path}",))
    assert "pictures/ab/orphan" in keys(bucket)


@pytest.fixture
def log(bucket, recording):
    """Alice's log of temperatures, read to its end, in the bucket."""
    return recording


def test_a_log_and_its_channels_lie_in_the_bucket(log, bucket, tmp_path):
    kept = bucket.get_object(Bucket=BUCKET, Key=f"originals/{original_name(log.sha256)}")
    assert kept["Body"].read() == (tmp_path / "warm.csv").read_bytes()
    assert any(key.startswith(f"channels/{log.channels}/") for key in keys(bucket))
    assert not (tmp_path / "originals").exists() and not (tmp_path / "channels").exists()


def test_channels_are_read_from_a_copy_on_this_machine(log, bucket, settings):
    with channels_of(log) as channels:
        assert len(channels.time) == 241 and (channels.of("temperature").values == 60.0).all()
    for key in keys(bucket):                       # the copy serves until it is removed
        bucket.delete_object(Bucket=BUCKET, Key=key)
    with channels_of(log) as channels:
        assert len(channels.time) == 241
    shutil.rmtree(settings.COPIES)
    with pytest.raises(FileNotFoundError), channels_of(log):
        pass


def test_mending_a_layout_removes_the_channels_from_the_bucket(
        alice, log, bucket, django_capture_on_commit_callbacks):
    layout = replace(THERMAL, columns=THERMAL.columns[:2])
    with django_capture_on_commit_callbacks(execute=True):
        lay_out(alice, log, layout)
    assert not any(key.startswith("channels/") for key in keys(bucket))


def test_the_sweeper_knows_the_files_of_recordings(log, bucket):
    assert sweep_files().missing == ()
    for key in keys(bucket):
        bucket.delete_object(Bucket=BUCKET, Key=key)
    assert sweep_files().missing == (f"originals: {original_name(log.sha256)}",
                                     f"channels: {log.channels}")


def test_copies_used_longest_ago_make_room(bucket, settings):
    settings.COPIES_BYTES = 250
    for at, name in enumerate(("ab/first", "ab/second", "ab/third")):
        storages["originals"].save(name, ContentFile(b"x" * 100))
        with local_file("originals", name) as path:
            assert path.read_bytes() == b"x" * 100
        os.utime(path.parent, (at, at))
    assert {path.name for path in (settings.COPIES / "originals").iterdir()} == {
        "ab-second", "ab-third"}


def test_a_copy_in_use_is_not_removed(bucket, settings):
    settings.COPIES_BYTES = 150
    for name in ("ab/first", "ab/second"):
        storages["originals"].save(name, ContentFile(b"x" * 100))
    with local_file("originals", "ab/first") as held:
        os.utime(held.parent, (0, 0))
        with local_file("originals", "ab/second"):
            assert held.read_bytes() == b"x" * 100
    with local_file("originals", "ab/second"):
        assert not held.exists()


def test_a_copy_that_breaks_off_leaves_no_half_a_file(bucket, settings, monkeypatch):
    def broken(source, target, length):
        target.write(source.read(10))
        raise OSError(28, "No space left on device")

    storages["originals"].save("ab/first", ContentFile(b"x" * 100))
    with monkeypatch.context() as patched:
        patched.setattr("teardowns.services.local_copies.shutil.copyfileobj", broken)
        with pytest.raises(OSError, match="No space"), local_file("originals", "ab/first"):
            pass
    assert not [path for path in settings.COPIES.rglob("*") if path.is_file()]
    with local_file("originals", "ab/first") as path:
        assert path.read_bytes() == b"x" * 100
