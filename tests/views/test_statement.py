"""A statement of reasons for its addressee, who may appeal once, suspended or not."""
import pytest
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import Appeal
from teardowns.services.appeal import decide_appeal
from teardowns.services.quarantine_unit import quarantine_unit
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def statement(unit, mona):
    published(unit)
    return quarantine_unit(moderator=mona, unit_pk=unit.pk, code="not_this_unit",
                           facts="Photo 2 shows another board.")


@pytest.fixture
def hers(client, alice):
    client.force_login(alice)
    return client


def address(statement):
    return f"/statements/{statement.uid}/"


def test_its_addressee_reads_facts_rule_and_the_way_to_appeal(hers, statement):
    page = hers.get(address(statement)).content.decode()
    assert statement.facts in page and "one specimen" in page and "within six months" in page
    assert "mona" not in page                               # a moderator decides, by no name
    assert address(statement) in hers.get("/statements/").content.decode()


def test_an_appeal_is_opened_once_and_its_clock_is_shown(hers, statement):
    assert hers.post(address(statement), {"text": "The same board."}).url == address(statement)
    page = hers.get(address(statement)).content.decode()
    assert f"{Appeal.objects.get().due_at:%Y-%m-%d %H:%M} UTC" in page and "<textarea" not in page
    assert "in already" in hers.post(address(statement), {"text": "Again."}).content.decode() \
        or Appeal.objects.count() == 1


def test_a_suspended_person_may_appeal(hers, statement):
    User.objects.filter(username="alice").update(suspended_at=timezone.now())
    hers.post(address(statement), {"text": "The same board."})
    assert Appeal.objects.count() == 1


def test_without_words_nothing_is_opened(hers, statement):
    page = hers.post(address(statement), {"text": " "}).content.decode()
    assert 'class="err"' in page and not Appeal.objects.exists()


def test_after_the_appeal_both_statements_stand_there(hers, statement, milo):
    hers.post(address(statement), {"text": "The same board."})
    decide_appeal(moderator=milo, appeal_pk=Appeal.objects.get().pk, reverse=True,
                  facts="It is the same board, cleaned.")
    page = hers.get(address(statement)).content.decode()
    assert statement.facts in page and "It is the same board, cleaned." in page


@pytest.mark.parametrize("name", ["bob", "rita", "ada"])
def test_others_do_not_find_it(client, request, statement, name):
    client.force_login(request.getfixturevalue(name))
    assert client.get(address(statement)).status_code == 404
    assert client.post(address(statement), {"text": "x"}).status_code == 404


def test_a_moderator_reads_it_and_does_not_appeal(client, statement, milo):
    client.force_login(milo)
    assert client.get(address(statement)).status_code == 200
    client.post(address(statement), {"text": "For her."})
    assert not Appeal.objects.exists()


def test_somebody_who_did_not_sign_in_is_asked_to(client, statement):
    assert "/sign-in/" in client.get(address(statement)).url
