"""What is sent when nobody is signed in, or by a page older than the session, is not lost."""
import pytest
from django.conf import settings
from django.test import Client

from core import clock
from core.sent_forms import KEPT_FOR, MOST_KEPT, OLD_PAGE, SENT, SIGN_IN
from teardowns.models import Comment, UnsavedSection
from tests.corrections import public_unit
from tests.forms.sent import sent

pytestmark = pytest.mark.django_db
MASS = "mass-total-0-value"


@pytest.fixture
def address(unit):
    return f"/bench/{unit.pk}/outside/"


def test_what_was_sent_without_a_session_waits_behind_the_sign_in(client, alice, unit, address):
    answer = client.post(address, sent(unit, "outside", {MASS: "72,3"}), follow=True)
    assert answer.redirect_chain[0][0] == f"/sign-in/?next={address}"
    assert SIGN_IN in answer.content.decode()
    assert client.session.get_expiry_age() == KEPT_FOR              # a stranger's is short
    client.force_login(alice)
    page = client.get(address).content.decode()
    assert 'value="72,3"' in page and "kept but not saved yet" in page
    assert client.session.get_expiry_age() == settings.SESSION_COOKIE_AGE
    assert not unit.measurements.exists()


def test_it_is_put_back_once(client, alice, unit, address):
    client.post(address, sent(unit, "outside", {MASS: "72,3"}))
    client.force_login(alice)
    client.get(address)
    client.post(address, {"discard": "yes"})
    assert 'value="72,3"' not in client.get(address).content.decode()


def test_nobody_else_who_signs_in_there_gets_to_see_it(client, bob, unit, address):
    client.post(address, sent(unit, "outside", {MASS: "72,3"}))
    client.force_login(bob)
    assert client.get(address).status_code == 404
    assert not UnsavedSection.objects.exists()


@pytest.mark.parametrize("page", ["discussion", "replies/new"])
def test_words_come_back_to_who_wrote_them_and_to_nobody_else(client, alice, bob, page):
    path = f"/units/{public_unit(alice).pk}/{page}/"
    client.force_login(bob)
    assert f'name="writer" value="{bob.pk}"' in client.get(path).content.decode()
    client.logout()
    for person, is_there in ((alice, False), (bob, True)):
        answer = client.post(path, {"text": "The core is an EE16.", "writer": str(bob.pk)})
        assert answer.status_code == 302
        client.get(path)                                  # before the sign-in nobody has it
        client.force_login(person)
        assert ("The core is an EE16." in client.get(path).content.decode()) is is_there
        client.logout()
    assert not Comment.objects.exists()


@pytest.mark.parametrize(("age", "is_there"), [(KEPT_FOR - 60, True), (KEPT_FOR + 60, False)])
def test_after_a_day_it_is_nobody_s_work_any_more(client, alice, address, age, is_there):
    client.force_login(alice)
    session = client.session
    session[SENT] = {"path": address, "fields": {"mass-total-TOTAL": "1", MASS: "72,3"},
                     "at": clock.now().timestamp() - age}
    session.save()
    assert ('value="72,3"' in client.get(address).content.decode()) is is_there


@pytest.fixture
def strict(alice):
    """Alice with a browser that is asked for its token."""
    browser = Client(enforce_csrf_checks=True)
    browser.force_login(alice)
    return browser


@pytest.mark.parametrize("proof", [{"Sec-Fetch-Site": "same-origin"},
                                   {"Origin": "http://testserver"}], ids=lambda proof: [*proof][0])
def test_a_page_from_before_the_sign_in_loses_nothing(strict, unit, address, proof):
    answer = strict.post(address, sent(unit, "outside", {MASS: "72,3"}), headers=proof, follow=True)
    assert answer.redirect_chain == [(f"{address}#main", 302)]
    assert OLD_PAGE in answer.content.decode() and 'value="72,3"' in answer.content.decode()
    assert not unit.measurements.exists()


@pytest.mark.parametrize("headers", [{}, {"Sec-Fetch-Site": "cross-site"},
                                     {"Origin": "http://elsewhere.example"}], ids=str)
def test_another_site_puts_no_word_into_a_sheet(strict, unit, address, headers):
    answer = strict.post(address, sent(unit, "outside", {MASS: "72,3"}), headers=headers)
    assert answer.status_code == 403
    assert 'value="72,3"' not in strict.get(address).content.decode()


def test_what_a_script_sends_in_the_background_stays_in_its_page(client, unit, address):
    client.post(address, sent(unit, "outside", {MASS: "72,3"}),
                headers={"Sec-Fetch-Mode": "cors"})
    assert SENT not in client.session


@pytest.mark.parametrize("fields", [{MASS: "7" * (MOST_KEPT + 1)}, {"x" * (MOST_KEPT + 1): ""}],
                         ids=["value", "name"])
def test_a_form_beyond_measure_is_not_kept(client, unit, address, fields):
    client.post(address, fields)
    assert SENT not in client.session


def test_one_network_keeps_so_many_an_hour(client, address, monkeypatch):
    monkeypatch.setattr("core.sent_forms.PER_NETWORK", (1, 3600))
    client.post(address, {MASS: "1"})
    stranger = Client()
    stranger.post(address, {MASS: "2"})
    assert SENT in client.session and SENT not in stranger.session
