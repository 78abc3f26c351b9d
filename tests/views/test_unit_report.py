"""The page that makes a record's PDF."""
import io
from datetime import timedelta

import pikepdf
import pytest
from django.db import transaction
from django.utils import timezone

from teardowns import jobs
from teardowns.models import Printout, Status, Unit
from teardowns.services import ask_printout
from tests.views.printed import public_unit

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module")
def rich(django_db_setup, django_db_blocker):
    """One public unit for all tests of the file: it takes a while to make."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield public_unit()
        transaction.set_rollback(True)


@pytest.fixture
def queued(monkeypatch):
    """Jobs that were queued; none is carried out."""
    calls = []
    monkeypatch.setattr(ask_printout, "async_task", lambda *call: calls.append(call))
    return calls


@pytest.fixture
def address(rich):
    return f"/units/{rich.pk}/report/"


def told(client, address):
    return client.get(address, headers={"accept": "application/json"}).json()


def test_asking_makes_it_and_the_page_hands_it_out(client, address, queued,
                                                   django_capture_on_commit_callbacks):
    """The whole way, the worker's part at once."""
    with django_capture_on_commit_callbacks(execute=True):
        assert client.post(address).url == address
    (job, pk), = queued
    assert job == "teardowns.jobs.make_printout"
    jobs.make_printout(pk)
    jobs.make_printout(pk)           # delivered twice: the second finds nothing to do
    page = client.get(address).content.decode()
    assert "Download the PDF" in page and f"{address}record.pdf" in page
    answer = client.get(f"{address}record.pdf")
    pdf = pikepdf.open(io.BytesIO(b"".join(answer.streaming_content)))
    with pdf.open_metadata() as said:
        assert "labelled 45" in said["dc:title"]
    assert answer["Content-Type"] == "application/pdf"
    assert len(pdf.pages) > 5
    assert Printout.objects.get().tries == 1


def test_two_who_ask_at_once_get_one(client, address, queued, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        client.post(address)
        client.post(address)
    assert len(queued) == Printout.objects.count() == 1


def test_before_anybody_asked_there_is_a_button_and_no_file(client, address):
    assert "Make the PDF" in client.get(address).content.decode()
    assert told(client, address)["state"] == "none"
    assert client.get(f"{address}record.pdf").status_code == 404


def test_while_it_waits_the_page_says_so_and_works_without_a_script(client, address, queued):
    client.post(address)
    page = client.get(address).content.decode()
    assert "Look again" in page and "Waiting for the worker" in page
    assert told(client, address) == {"state": "waiting", "step": 0,
                                     "words": "Waiting for the worker"}


def test_where_no_worker_runs_it_says_so_after_a_while(client, address, queued):
    client.post(address)
    assert "Nobody has begun yet" not in client.get(address).content.decode()
    Printout.objects.update(asked_at=timezone.now() - timedelta(minutes=1))
    assert "Nobody has begun yet" in client.get(address).content.decode()


def test_one_whose_worker_died_can_be_begun_again(client, address, queued,
                                                  django_capture_on_commit_callbacks):
    client.post(address)
    Printout.objects.update(state="making", began_at=timezone.now() - timedelta(minutes=6))
    assert "Try again" in client.get(address).content.decode()
    with django_capture_on_commit_callbacks(execute=True):
        client.post(address)
    assert len(queued) == 1 and told(client, address)["state"] == "waiting"


def test_a_record_that_is_not_public_has_none(client, rich, address):
    Unit.objects.filter(pk=rich.pk).update(quarantined_at=timezone.now())
    assert client.get(address).status_code == client.post(address).status_code == 404


def test_one_that_was_withdrawn_has_its_tombstone(client, rich, address):
    Unit.objects.filter(pk=rich.pk).update(status=Status.WITHDRAWN)
    assert client.get(address).status_code == 410
    assert client.get(f"{address}record.pdf").status_code == 410


@pytest.mark.parametrize("version", ["x", "0", "99", "1.0", "9" * 30, "%00"])
def test_a_version_that_there_is_not_is_not_found(client, address, version):
    assert client.get(f"{address}?version={version}").status_code == 404


def test_it_costs_at_most_twelve_queries(client, address, queued, django_assert_max_num_queries):
    client.post(address)
    with django_assert_max_num_queries(12):
        client.get(address)
