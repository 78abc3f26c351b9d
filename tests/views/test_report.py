"""Anybody reports, signed in or not, and follows it by a receipt."""
import re

import pytest

from teardowns.forms.plain_question import METALS
from teardowns.models import Report
from teardowns.services.resolve_report import resolve_report
from tests.published import published

pytestmark = pytest.mark.django_db
TYPED = {"code": "wrong_reading", "text": "The figure is not what the photo shows."}


@pytest.fixture
def address(unit):
    published(unit)
    return f"/report/?about=unit/{unit.pk}"


def answered(page):
    """The fields that answer the question of the page."""
    words = re.search(r"metals: ([^?]+)\?", page).group(1).split(", ")
    return {"question": re.search(r'name="question" value="([^"]+)"', page).group(1),
            "answer": str(sum(word in METALS for word in words))}


def test_who_is_not_signed_in_answers_a_question_and_gets_a_receipt(client, address):
    page = client.get(address).content.decode()
    receipt = client.post(address, TYPED | answered(page)).url
    assert Report.objects.get().reporter is None
    page = client.get(receipt).content.decode()
    assert "A moderator is to look at it by" in page and "wrong" in page


def test_a_wrong_answer_keeps_all_and_asks_another(client, address):
    page = client.get(address).content.decode()
    answer = client.post(address, TYPED | answered(page) | {"answer": "9"})
    assert answer.status_code == 200 and TYPED["text"] in answer.content.decode()
    assert "not the answer" in answer.content.decode() and not Report.objects.exists()


@pytest.mark.parametrize("broken", [{"question": "x:y:z"}, {"question": ""}, {"answer": ""}])
def test_a_question_that_was_not_asked_is_not_answered(client, address, broken):
    page = client.get(address).content.decode()
    client.post(address, TYPED | answered(page) | broken)
    assert not Report.objects.exists()


def test_who_is_signed_in_is_asked_nothing(client, address, bob):
    client.force_login(bob)
    assert "metals" not in client.get(address).content.decode()
    client.post(address, TYPED)
    assert Report.objects.get().reporter == bob


def test_twice_leads_to_the_receipt_of_the_first(client, address, bob):
    client.force_login(bob)
    receipt = client.post(address, TYPED).url
    page = client.post(address, TYPED).content.decode()
    assert receipt in page and Report.objects.count() == 1


@pytest.mark.parametrize("missing", ["code", "text"])
def test_what_is_missing_is_named(client, address, bob, missing):
    client.force_login(bob)
    answer = client.post(address, TYPED | {missing: ""})
    assert answer.status_code == 200 and 'class="err"' in answer.content.decode()
    assert not Report.objects.exists()


@pytest.mark.parametrize("about", ["", "unit/999", "unit/", "user/1", "photo/1/x"])
def test_what_is_not_there_cannot_be_reported(client, db, about):
    assert client.get(f"/report/?about={about}").status_code == 404


def test_the_eleventh_of_an_hour_from_one_network_is_told_to_wait(client, address):
    page = client.get(address).content.decode()
    for _ in range(10):
        client.post(address, TYPED | answered(page))
    answer = client.post(address, TYPED | answered(page))
    assert answer.status_code == 429 and Report.objects.count() == 10
    assert int(answer.headers["Retry-After"]) > 0


def test_the_receipt_shows_the_statement_when_it_is_decided(client, address, bob, mona):
    client.force_login(bob)
    receipt = client.post(address, TYPED).url
    resolve_report(moderator=mona, report_pk=Report.objects.get().pk, upheld=False,
                   code="not_supported", facts="The photo shows the same figure.")
    page = client.get(receipt).content.decode()
    assert "The photo shows the same figure." in page and "/statements/" in page


def test_another_receipt_is_not_found(client, db):
    assert client.get("/report/receipts/5f0e3c0e-1111-4222-8333-444455556666/").status_code == 404
