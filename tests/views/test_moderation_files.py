import pytest
from django.core.files.storage import storages
from django.urls import reverse

from core.audit.models import Entry
from teardowns.models import Photo, Unit
from teardowns.services.photo_files import original_name
from tests.photographs import photograph
from tests.published import published as publish

pytestmark = pytest.mark.django_db


@pytest.fixture
def address(unit, photo):
    publish(unit)
    return reverse("moderation_files", args=[unit.pk])


def test_it_shows_what_was_taken_out_and_who_sent_each_file(client, mona, photo, address):
    client.force_login(mona)
    page = client.get(address).content.decode()
    assert photo.sha256 in page and "alice" in page and "nowhere else" in page
    assert all(found in page for found in photo.stripped)


def test_it_names_a_picture_elsewhere_that_looks_alike(client, mona, bob, photo, address):
    Photo.objects.update(perceptual_hash=0x0F1E2D3C4B5A6978)
    there = Unit.objects.create(contributor=bob, title="Veltrice VQ-20")
    Photo.objects.create(unit=there, key="lid", sha256="ab" * 32, author=bob,
                         perceptual_hash=0x0F1E2D3C4B5A6979)
    client.force_login(mona)
    page = client.get(address).content.decode()
    assert f"record {there.pk}, photo lid, sent by bob: 1 of 64 fields differ" in page


def test_a_moderator_saves_the_file_as_it_came_in_and_the_log_says_why(client, mona, photo, address,
                                                                       tmp_path):
    client.force_login(mona)
    answer = client.post(address, {"file": f"photo/{photo.key}", "reason": "A face in the window"})
    assert b"".join(answer.streaming_content) == photograph(tmp_path, "again.png").read_bytes()
    assert answer.headers["Content-Disposition"].startswith("attachment")
    assert Entry.objects.get(action="original_seen").reason == "A face in the window"


def test_without_a_reason_it_asks_for_one_beside_the_file(client, mona, photo, address):
    client.force_login(mona)
    page = client.post(address, {"file": f"photo/{photo.key}", "reason": " "})
    assert page.status_code == 200 and "Say why you need the file" in page.content.decode()
    assert not Entry.objects.filter(action="original_seen").exists()


@pytest.mark.parametrize("file", ["photo/none", "unit/1", "", "photo", "recording/lid", "a/b/c"])
def test_a_file_that_is_not_there_is_not_found(client, mona, address, file):
    client.force_login(mona)
    assert client.post(address, {"file": file, "reason": "Why"}).status_code == 404


def test_a_file_that_is_lost_is_not_found(client, mona, photo, address):
    storages["originals"].delete(original_name(photo.sha256))
    client.force_login(mona)
    answer = client.post(address, {"file": f"photo/{photo.key}", "reason": "Why"})
    assert answer.status_code == 404


@pytest.mark.parametrize("person", ["alice", "rita", "ada"])
def test_nobody_else_has_this_page(client, request, address, person):
    client.force_login(request.getfixturevalue(person))
    assert client.get(address).status_code == 403
