"""Many photos in one form: the good ones stay, each other one is named with what helps."""
import errno

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from teardowns.imaging import heic
from teardowns.models import Photo, PhotoDerivative, Stage
from teardowns.services.receive_photo import NO_ROOM
from teardowns.views import limited_upload
from tests.photographs import damaged, photograph

pytestmark = pytest.mark.django_db


@pytest.fixture
def address(client, alice, unit):
    client.force_login(alice)
    return f"/bench/{unit.pk}/photos/"


@pytest.fixture
def send(client, address):
    def posted(*paths, follow=False, **more):
        files = [SimpleUploadedFile(path.name, path.read_bytes()) for path in paths]
        return client.post(address, {"photos": files, "stage": "plate"} | more, follow=follow)
    return posted


def text_of(response):
    return response.content.decode()


def test_it_asks_for_photos_before_there_is_one(client, address):
    page = text_of(client.get(address))
    assert "No photo has been sent yet." in page
    assert 'enctype="multipart/form-data"' in page and "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page


@pytest.mark.parametrize("package, kinds, accept", [
    (None, "JPEG, PNG, WebP or AVIF, up to", 'image/webp,image/avif"'),
    (object(), "JPEG, PNG, WebP, AVIF or HEIC, up to", 'image/avif,image/heic"')])
def test_it_says_which_kinds_are_taken(client, address, monkeypatch, package, kinds, accept):
    monkeypatch.setattr(heic, "find_spec", lambda name: package)
    page = text_of(client.get(address))
    assert kinds in page and accept in page


def test_a_good_photo_is_kept_under_its_stage_and_shown(send, tmp_path):
    page = text_of(send(photograph(tmp_path), follow=True))
    assert "1 photo kept." in page
    kept = Photo.objects.get()
    assert kept.stage == "plate"
    assert f'src="/units/{kept.unit_id}/photos/plate-1/400.webp"' in page


def test_of_several_the_good_ones_stay_and_the_bad_one_is_named_with_its_remedy(send, tmp_path):
    response = send(photograph(tmp_path, "front.jpg"), damaged(tmp_path, "torn.jpg"),
                    photograph(tmp_path, "back.png", colour="grey"))
    page = text_of(response)
    assert response.status_code == 200 and "2 kept, 1 not." in page
    assert "torn.jpg: The picture is damaged" in page and "from the camera again" in page
    assert sorted(Photo.objects.values_list("original_name", flat=True)) == ["back.png",
                                                                             "front.jpg"]


def test_the_stage_that_was_chosen_is_chosen_still_after_a_refusal(send, tmp_path):
    assert '<option value="plate" selected>' in text_of(send(damaged(tmp_path)))


def test_a_file_that_only_calls_itself_a_picture_is_refused(send, tmp_path):
    text = tmp_path / "note.jpg"
    text.write_text("<script>alert(1)</script>")
    page = text_of(send(text))
    assert "note.jpg: " in page and "1 file could not be taken." in page
    assert not Photo.objects.exists()


def test_a_file_s_name_is_shown_as_text(send, tmp_path):
    bad = damaged(tmp_path, "<b>bold.jpg")
    page = text_of(send(bad))
    assert "&lt;b&gt;bold.jpg: " in page and "<b>bold" not in page


def test_sending_no_file_says_what_to_do(client, address):
    page = text_of(client.post(address, {"stage": "plate"}))
    assert "No file was chosen. Choose one or more pictures, then send." in page


def test_a_file_that_is_here_already_is_counted_as_such(send, tmp_path):
    send(photograph(tmp_path))
    page = text_of(send(photograph(tmp_path), photograph(tmp_path, "other.png"), follow=True))
    assert "1 photo kept. 1 of the files was here already." in page
    assert Photo.objects.count() == 2


def test_a_file_over_the_limit_is_named_and_the_others_are_kept(send, tmp_path, monkeypatch):
    small = photograph(tmp_path, "small.jpg")
    large = tmp_path / "large.jpg"
    large.write_bytes(small.read_bytes() + bytes(200_000))
    monkeypatch.setattr(limited_upload, "MAX_BYTES", 100_000)
    page = text_of(send(large, small))
    assert "large.jpg: it is larger than" in page and "Send a smaller copy." in page
    assert "1 kept, 1 not." in page
    assert Photo.objects.get().original_name == "small.jpg"


def test_a_full_disk_is_said_in_words_and_what_was_there_stays(send, tmp_path, monkeypatch):
    send(photograph(tmp_path, "front.jpg"))
    monkeypatch.setattr("core.durable_storage.os.fsync", _no_space)
    page = text_of(send(photograph(tmp_path, "back.png")))
    assert "back.png: " in page and NO_ROOM in page
    assert Photo.objects.get().original_name == "front.jpg"


def _no_space(descriptor):
    raise OSError(errno.ENOSPC, "No space left on device")


def test_nothing_is_left_of_a_file_that_was_refused(send, tmp_path, settings):
    send(damaged(tmp_path))
    places = [settings.INCOMING, tmp_path / "originals", tmp_path / "pictures"]
    assert not [path for place in places for path in place.rglob("*") if path.is_file()]


def test_an_unknown_stage_becomes_other(send, tmp_path):
    send(photograph(tmp_path), stage="nonsense")
    assert Photo.objects.get().stage == Stage.OTHER


def test_only_the_contributor_s_open_sheet_is_found(client, bob, rita, mona, unit, tmp_path):
    for person in (bob, rita, mona):
        client.force_login(person)
        assert client.get(f"/bench/{unit.pk}/photos/").status_code == 404
        with photograph(tmp_path).open("rb") as file:
            sent = client.post(f"/bench/{unit.pk}/photos/", {"photos": file})
        assert sent.status_code == 404
    assert not Photo.objects.exists()


@pytest.mark.parametrize("status", ["submitted", "published"])
def test_a_sheet_that_was_sent_in_is_closed(client, address, send, unit, tmp_path, status):
    unit.status = status
    unit.save()
    assert client.get(address).status_code == 404
    assert send(photograph(tmp_path)).status_code == 404


def test_anonymous_is_led_to_sign_in(client, unit):
    assert client.get(f"/bench/{unit.pk}/photos/").url.startswith("/sign-in/")


def test_a_form_without_its_token_is_refused(alice, unit, tmp_path):
    client = Client(enforce_csrf_checks=True)
    client.force_login(alice)
    with photograph(tmp_path).open("rb") as file:
        answer = client.post(f"/bench/{unit.pk}/photos/", {"photos": file})
    assert answer.status_code == 403
    assert not Photo.objects.exists()


def test_a_form_with_its_token_is_taken(alice, unit, tmp_path):
    client = Client(enforce_csrf_checks=True)
    client.force_login(alice)
    client.get(f"/bench/{unit.pk}/photos/")
    with photograph(tmp_path).open("rb") as file:
        fields = {"photos": file, "csrfmiddlewaretoken": client.cookies["csrf"].value}
        assert client.post(f"/bench/{unit.pk}/photos/", fields).status_code == 302
    assert Photo.objects.exists()


def test_a_photo_that_was_taken_down_is_not_in_the_gallery(client, address, photo):
    assert photo.get_absolute_url().rpartition("/photos/")[2] in text_of(client.get(address))
    photo.taken_down_at = photo.created_at
    photo.save()
    assert "No photo has been sent yet." in text_of(client.get(address))


def test_many_photos_cost_at_most_twelve_queries(client, address, unit, alice,
                                                 django_assert_max_num_queries):
    for n in range(30):
        row = Photo.objects.create(unit=unit, key=f"p{n}", sha256=f"{n:064}", author=alice,
                                   width=400, height=300)
        PhotoDerivative.objects.create(photo=row, width=400, height=300, path=f"{n}",
                                       media_type="image/webp")
    with django_assert_max_num_queries(12):
        assert text_of(client.get(address)).count("<img ") == 30


def test_it_rejects_put(client, address):
    assert client.put(address).status_code == 405
