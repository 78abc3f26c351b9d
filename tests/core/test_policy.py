"""Every URL and method has a stated policy, and the policy is what happens."""
import pytest
from django.test import RequestFactory
from django.urls import URLPattern, URLResolver, get_resolver

from core.accounts.models import Role, User
from core.policy import ANYONE, POLICY, SIGNED_IN, is_allowed

METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE")
SAMPLE = {"int": "0", "slug": "none", "str": "none", "path": "none/none",
          "uuid": "00000000-0000-0000-0000-000000000000"}


def routes(resolver=None):
    """Every named route below the root, as URL patterns."""
    for pattern in (resolver or get_resolver()).url_patterns:
        if isinstance(pattern, URLResolver):
            yield from routes(pattern)
        elif isinstance(pattern, URLPattern):
            yield pattern


def address(pattern):
    """An address of the route, with an object that does not exist."""
    route = str(pattern.pattern)
    for name, converter in pattern.pattern.converters.items():
        kind = type(converter).__name__.removesuffix("Converter").lower()
        kind = {"string": "str"}.get(kind, kind)
        for written in (f"<{kind}:{name}>", f"<{name}>"):
            route = route.replace(written, SAMPLE[kind])
    return f"/{route}"


def test_every_route_has_a_policy():
    assert {p.name for p in routes()} == set(POLICY)


def test_a_route_without_a_policy_is_refused(client, monkeypatch):
    monkeypatch.delitem(POLICY, "front_page")
    assert client.get("/").status_code == 403


@pytest.mark.django_db
@pytest.mark.parametrize("pattern", list(routes()), ids=lambda p: p.name)
@pytest.mark.parametrize("method", METHODS)
def test_a_method_without_a_policy_is_refused(client, pattern, method):
    stated = set(POLICY[pattern.name])
    stated |= {"HEAD"} & {"HEAD" if "GET" in stated else ""}
    status = client.generic(method, address(pattern)).status_code
    assert (status == 405) == (method not in stated)


@pytest.mark.django_db
@pytest.mark.parametrize("role", [None, *Role])
@pytest.mark.parametrize("pattern", list(routes()), ids=lambda p: p.name)
def test_a_role_meets_what_its_policy_says(client, pattern, role):
    user = None
    if role:
        user = User.objects.create_user("someone", password="a long enough one", role=role)
        client.force_login(user)
    for method, rule in POLICY[pattern.name].items():
        response = client.generic(method, address(pattern))
        refused = response.status_code == 403 or (
            response.status_code == 302 and response.url.startswith("/sign-in/?next")
        )
        assert refused == (not is_allowed_for(user, rule)), f"{method} {response.status_code}"


def is_allowed_for(user, rule):
    return is_allowed(user, rule) if user else rule == ANYONE


def test_a_higher_role_may_do_what_a_lower_one_may():
    moderator = User(role=Role.MODERATOR, is_active=True)
    assert is_allowed(moderator, Role.CONTRIBUTOR) and is_allowed(moderator, SIGNED_IN)
    assert not is_allowed(moderator, Role.ADMINISTRATOR)


def test_a_suspended_account_may_nothing():
    request = RequestFactory().get("/")
    request.user = User(role=Role.ADMINISTRATOR, is_active=False)
    assert not is_allowed(request.user, Role.CONTRIBUTOR)
