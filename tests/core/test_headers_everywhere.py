"""Errors and redirects, over HTTPS, and cookies; the walk through the grid asks all pages."""
import json
import os
import subprocess
import sys

import pytest
from django.test import Client
from django.urls import reverse

from core.models import Bucket
from teardowns.models import Publication, Unit
from tests.core.header_faults import header_faults
from tests.core.test_overload import Line
from tests.published import published

TWO_YEARS = 2 * 365 * 86400
NAMES = """import json
from core import said_once, settings as s
from core.accounts import devices
print(json.dumps([
    [s.SESSION_COOKIE_NAME, s.SESSION_COOKIE_SECURE, s.SESSION_COOKIE_SAMESITE],
    [s.CSRF_COOKIE_NAME, s.CSRF_COOKIE_SECURE, s.CSRF_COOKIE_SAMESITE],
    [s.LANGUAGE_COOKIE_NAME, s.LANGUAGE_COOKIE_SECURE, "Lax"],
    [said_once.COOKIE, s.SESSION_COOKIE_SECURE, s.SESSION_COOKIE_SAMESITE],
    [devices.COOKIE, s.HTTPS, "Lax"],
    [s.SECURE_SSL_REDIRECT, s.SECURE_HSTS_SECONDS, s.SECURE_HSTS_INCLUDE_SUBDOMAINS]]))"""


@pytest.fixture
def over_https(settings):
    """As core/settings.py sets them with HTTPS=1, see the last test."""
    settings.HTTPS = settings.SECURE_SSL_REDIRECT = True
    settings.SECURE_HSTS_SECONDS = TWO_YEARS
    settings.SECURE_HSTS_INCLUDE_SUBDOMAINS = settings.SECURE_HSTS_PRELOAD = True


def too_often(client):
    client.get("/units/list.csv", secure=True)
    Bucket.objects.update(left=0)
    return client.get("/units/list.csv", secure=True)


def gone(client):
    publication = Publication.objects.get()
    Publication.objects.update(withdrawn_at=publication.published_at,
                               withdrawal_code="not_this_unit", withdrawal_reason="Another board.")
    Unit.objects.update(status="withdrawn")
    return client.get(reverse("unit_detail", args=[publication.unit_id]), secure=True)


def unstated_form(client):
    strict = Client(enforce_csrf_checks=True)
    strict.cookies = client.cookies
    return strict.post("/report/", secure=True)


def sent_elsewhere(client):
    """Strangers to sign in, and from there whoever is signed in already."""
    return client.get("/sign-in/" if client.cookies else "/account/", secure=True)


SAID = {
    301: lambda client: client.get("/units", secure=True),
    302: sent_elsewhere,
    400: lambda client: client.get("/", headers={"host": "evil.example"}, secure=True),
    403: unstated_form,
    404: lambda client: client.get("/nowhere/", secure=True),
    405: lambda client: client.put("/units/", secure=True),
    410: gone,
    429: too_often,
    503: lambda client: client.get("/", secure=True, **{"gunicorn.socket": Line(60)}),
}


@pytest.mark.django_db
@pytest.mark.parametrize("signed_in", [False, True], ids=["stranger", "signed in"])
@pytest.mark.parametrize("status", SAID)
def test_errors_and_redirects_carry_their_headers(over_https, client, unit, mona, status,
                                                  signed_in):
    published(unit, mona)
    if signed_in:
        client.force_login(mona)
    answer = SAID[status](client)
    assert answer.status_code == status
    assert not list(header_faults("", answer, signed_in=signed_in))
    assert answer["Strict-Transport-Security"] == f"max-age={TWO_YEARS}; includeSubDomains; preload"


@pytest.mark.django_db
def test_in_clear_a_page_is_sent_to_https_and_nothing_else(over_https, client):
    answer = client.get("/units/?q=a")
    assert (answer.status_code, answer["Location"]) == (301, "https://testserver/units/?q=a")
    assert not answer.content and not answer.cookies
    assert answer["X-Content-Type-Options"] == "nosniff"


@pytest.mark.django_db
@pytest.mark.parametrize("method", ["TRACE", "BREW"])
def test_trace_and_invented_methods_are_refused(client, method):
    for path in ("/", "/units/", "/account/", "/api/v1/", "/health/alive", "/nowhere/"):
        answer = client.generic(method, path)
        assert answer.status_code in (404, 405) and method not in answer.content.decode()


def test_every_cookie_is_secure_and_of_this_host_alone_over_https():
    environment = os.environ | {"HTTPS": "1", "DJANGO_SETTINGS_MODULE": "core.settings"}
    done = subprocess.run([sys.executable, "-c", NAMES], env=environment, text=True,
                          capture_output=True, check=True)
    *cookies, headers = json.loads(done.stdout)
    assert all(name.startswith("__Host-") and secure and samesite == "Lax"
               for name, secure, samesite in cookies)
    assert headers == [True, TWO_YEARS, True]
