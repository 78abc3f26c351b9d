"""Whatever goes wrong, the page says what to do."""
import pytest
from django.test import Client, RequestFactory
from django.urls import reverse
from django.views.defaults import bad_request, server_error

from core.policy import POLICY


def test_an_address_without_a_page(client, db):
    response = client.get("/nothing-here/")
    assert response.status_code == 404 and "Check the address" in response.content.decode()


def test_a_page_that_is_not_open_to_everybody(client, db, monkeypatch):
    monkeypatch.delitem(POLICY, "front_page")
    response = client.get("/")
    assert response.status_code == 403 and "ask a moderator" in response.content.decode()


def test_a_form_that_was_open_too_long(db):
    response = Client(enforce_csrf_checks=True).post(reverse("sign_in"), {"username": "alice"})
    assert response.status_code == 403
    assert "what you typed is still in the form" in response.content.decode()


@pytest.mark.parametrize(("answer", "status", "remedy"), [
    (lambda request: server_error(request), 500, "Try again in a minute"),
    (lambda request: bad_request(request, None), 400, "Go back and try again"),
])
def test_a_broken_request_needs_neither_session_nor_database(answer, status, remedy):
    response = answer(RequestFactory().get("/"))       # without `db`, a query is an error
    assert response.status_code == status and remedy in response.content.decode()
