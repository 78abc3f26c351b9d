import pytest

from tests.core.doctor.found import bad

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def served(settings, monkeypatch):
    """A site for others, as it should be."""
    monkeypatch.delenv("DJANGO_ALLOW_ASYNC_UNSAFE")        # which tests in a browser need
    settings.ALLOWED_HOSTS, settings.SITE_URL = ["units.example"], "https://units.example"
    settings.HTTPS = settings.SECURE_SSL_REDIRECT = True
    settings.SESSION_COOKIE_SECURE = settings.CSRF_COOKIE_SECURE = True
    settings.PROXIES, settings.SECRET_KEY = 1, "".join(map(chr, range(48, 122)))
    settings.SECURE_HSTS_SECONDS = 63_072_000
    settings.SECURE_HSTS_INCLUDE_SUBDOMAINS = settings.SECURE_HSTS_PRELOAD = True
    return settings


def test_a_site_as_it_should_be_has_nothing_to_say():
    assert bad("web") == ""


@pytest.mark.parametrize("name, value, words", [
    ("DEBUG", True, "DEBUG is on"),
    ("ALLOWED_HOSTS", ["*"], "any name"),
    ("HTTPS", False, "passwords travel in clear"),
    ("PROXIES", 0, "no proxy is believed"),
    ("SITE_URL", "https://other.example", "a name the site does not answer to"),
    ("SITE_URL", "http://units.example", "without HTTPS"),
    ("SESSION_COOKIE_SECURE", False, "security.W012")])
def test_each_thing_that_is_wrong_is_named(settings, name, value, words):
    setattr(settings, name, value)
    assert words in bad("web")


def test_a_site_of_this_machine_alone_needs_no_https(settings):
    settings.ALLOWED_HOSTS, settings.HTTPS, settings.PROXIES = ["localhost", "127.0.0.1"], False, 0
    settings.SITE_URL = "http://localhost:8000"
    assert bad("web") == ""
