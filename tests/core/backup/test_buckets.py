"""A bucket is listed in pages with all that is asked of a file, and restored into like a folder."""
import boto3
import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from moto import mock_aws

from core import settings as site
from core.backup.back_up import _line
from core.backup.stored_files import copy_out, stored_files

BUCKET = "kept"


@pytest.fixture
def bucket(settings, monkeypatch):
    """In this process: the client library's own requests are answered by moto."""
    for name in ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY"):
        monkeypatch.setenv(name, "of-the-test")
    monkeypatch.setenv("AWS_DEFAULT_REGION", "us-east-1")
    monkeypatch.setattr(site, "S3_BUCKET", BUCKET)
    monkeypatch.setattr(site, "S3_ENDPOINT", "")
    with mock_aws():
        boto3.client("s3").create_bucket(Bucket=BUCKET)
        settings.STORAGES = settings.STORAGES | {
            name: site.private(name) for name in ("originals", "pictures")}
        yield


def test_files_of_a_bucket_are_listed_by_storage_and_copied(bucket, tmp_path):
    storages["originals"].save("ab/abc", ContentFile(b"pixels"))
    storages["pictures"].save("cd/cde/400.webp", ContentFile(b"made"))
    one, other = stored_files()
    assert (one.alias, one.name, one.size) == ("originals", "ab/abc", 6)
    assert (other.alias, other.name, other.size) == ("pictures", "cd/cde/400.webp", 4)
    assert copy_out(one, tmp_path / "copy") and (tmp_path / "copy").read_bytes() == b"pixels"
    assert [_line(file) for file in stored_files()] == [_line(one), _line(other)]


def test_a_file_that_went_away_is_none(bucket, tmp_path):
    storages["originals"].save("ab/abc", ContentFile(b"pixels"))
    file, = stored_files()
    storages["originals"].delete(file.name)
    assert copy_out(file, tmp_path / "copy") is None
