"""Logs in one form: the good ones stay, each other one is named with what helps."""
import errno

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from teardowns.models import Port, Recording, RecordingKind
from teardowns.services.photo_files import NOT_STORED
from teardowns.views import bench_recordings as subject
from tests.recordings import thermal_log
from tests.views.log_page import text_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def address(client, alice, unit):
    client.force_login(alice)
    return f"/bench/{unit.pk}/recordings/"


@pytest.fixture
def send(client, address):
    def posted(*paths, follow=True, **more):
        files = [SimpleUploadedFile(path.name, path.read_bytes()) for path in paths]
        return client.post(address, {"files": files, "kind": "thermal"} | more, follow=follow)
    return posted


def test_it_asks_for_logs_before_there_is_one(client, address):
    page = text_of(client.get(address))
    assert "No log has been sent yet." in page and "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page and "<style" not in page


def test_one_log_is_kept_as_it_was_called_and_leads_to_how_it_is_read(send, unit, alice, tmp_path):
    port = Port.objects.create(unit=unit, author=alice, key="c1", label="C1")
    response = send(thermal_log(tmp_path), port="c1", instrument="Logger 8")
    kept = Recording.objects.get()
    assert (kept.kind, kept.port, kept.instrument) == ("thermal", port, "Logger 8")
    assert [to for to, _ in response.redirect_chain] == [
        f"/bench/{unit.pk}/recordings/thermal-1/", f"/bench/{unit.pk}/recordings/thermal-1/layout/"]


def test_several_are_kept_and_each_says_what_comes_next(send, tmp_path):
    page = text_of(send(thermal_log(tmp_path, "a.csv"), thermal_log(tmp_path, "b.csv", case=50)))
    assert "2 logs kept." in page and page.count("Say how it is read.") == 2
    assert "Temperatures 2</b></a> b.csv" in page


def test_of_several_the_good_ones_stay_and_the_bad_one_is_named(send, tmp_path):
    picture = tmp_path / "<b>board.csv"
    picture.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 4)
    response = send(thermal_log(tmp_path), picture, follow=False)
    assert response.status_code == 200 and "1 kept, 1 not." in text_of(response)
    assert "&lt;b&gt;board.csv: " in response.content.decode()
    assert Recording.objects.get().original_name == "warm.csv"


def test_what_was_said_stays_after_a_refusal(send, tmp_path):
    empty = tmp_path / "empty.csv"
    empty.write_text("")
    page = text_of(send(empty, kind="waveform", instrument="Scope 3"))
    assert "empty.csv: the file is empty. Choose it again." in page
    assert '<option value="waveform" selected>' in page and 'value="Scope 3"' in page


def test_a_form_with_a_mistake_keeps_no_file_and_says_to_choose_it_again(send, tmp_path):
    page = text_of(send(thermal_log(tmp_path), kind="protocol", instrument="x" * 121))
    assert "Nothing was kept: set right the entry below, then choose the files again." in page
    assert f'value="{"x" * 121}"' in page
    assert 'id="receive-instrument_error"' in page and 'id="receive-kind_error"' in page
    assert not Recording.objects.exists()


def test_sending_no_file_says_what_to_do(client, address):
    page = text_of(client.post(address, {"kind": "thermal"}))
    assert "No file was chosen. Choose one or more logs, then send." in page


def test_a_file_over_the_limit_is_named_whatever_else_is_wrong(send, tmp_path, monkeypatch):
    monkeypatch.setattr(subject, "MOST_BYTES", 1000)
    for kind in ("thermal", "nonsense"):
        assert "warm.csv: it is larger than" in text_of(send(thermal_log(tmp_path), kind=kind))
    assert not Recording.objects.exists()


def test_a_full_disk_is_said_in_words(send, tmp_path, monkeypatch):
    monkeypatch.setattr("core.durable_storage.os.fsync", _no_space)
    assert f"warm.csv: {NOT_STORED}" in text_of(send(thermal_log(tmp_path)))


def _no_space(descriptor):
    raise OSError(errno.ENOSPC, "No space left on device")


def test_the_same_file_again_leads_to_the_log_that_is_there(send, tmp_path):
    send(thermal_log(tmp_path))
    send(thermal_log(tmp_path))
    assert Recording.objects.get().key == "thermal-1"


def test_a_list_of_capabilities_is_kept_and_asks_for_nothing(client, address, alice, unit):
    Recording.objects.create(unit=unit, key="protocol-1", kind=RecordingKind.PROTOCOL, author=alice,
                             sha256="2" * 64, received=True, caption="C1, no load")
    page = text_of(client.get(address))
    assert "<b>Protocol capture</b> C1, no load" in page and "Kept." in page
    for more in ("", "layout/"):
        answer = client.get(f"{address}protocol-1/{more}")
        assert answer.url == f"{address}capabilities/"
    assert client.post(f"{address}protocol-1/layout/", {"act": "read"}).status_code == 302


def test_what_was_taken_down_is_not_in_the_list(client, address, laid_out):
    assert "thermal-1" in text_of(client.get(address))
    Recording.objects.update(taken_down_at=laid_out.created_at)
    assert "No log has been sent yet." in text_of(client.get(address))


def test_only_the_contributors_open_sheet_is_found(client, bob, rita, mona, unit, tmp_path):
    for person in (bob, rita, mona):
        client.force_login(person)
        assert client.get(f"/bench/{unit.pk}/recordings/").status_code == 404
        with thermal_log(tmp_path).open("rb") as file:
            sent = client.post(f"/bench/{unit.pk}/recordings/", {"files": file, "kind": "thermal"})
        assert sent.status_code == 404
    assert not Recording.objects.exists()


@pytest.mark.parametrize("status", ["submitted", "published"])
def test_a_sheet_that_was_sent_in_is_closed(client, address, send, unit, tmp_path, status):
    unit.status = status
    unit.save()
    assert client.get(address).status_code == 404
    assert send(thermal_log(tmp_path)).status_code == 404


def test_anonymous_is_led_to_sign_in(client, unit):
    assert client.get(f"/bench/{unit.pk}/recordings/").url.startswith("/sign-in/")


def test_a_form_without_its_token_is_refused(alice, unit, tmp_path):
    client = Client(enforce_csrf_checks=True)
    client.force_login(alice)
    with thermal_log(tmp_path).open("rb") as file:
        answer = client.post(f"/bench/{unit.pk}/recordings/", {"files": file, "kind": "thermal"})
    assert answer.status_code == 403 and not Recording.objects.exists()


def test_many_logs_cost_at_most_twelve_queries(client, address, unit, alice,
                                               django_assert_max_num_queries):
    port = Port.objects.create(unit=unit, author=alice, key="c1", label="C1")
    for n in range(30):
        Recording.objects.create(unit=unit, key=f"thermal-{n}", kind="thermal", author=alice,
                                 sha256=f"{n:064}", received=True, port=port)
    with django_assert_max_num_queries(12):
        assert text_of(client.get(address)).count(f'<li><a href="{address}thermal-') == 30
