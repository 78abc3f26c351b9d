"""Every URL and method has a stated policy, and the policy is what happens."""
import pytest
from django.core.exceptions import PermissionDenied
from django.test import RequestFactory
from django.urls import URLPattern, URLResolver, get_resolver
from django.utils import timezone

from core.accounts.models import Role, User
from core.accounts.services.api_tokens import issue_token
from core.policy import (
    ADMINISTER,
    BENCH,
    MODERATE,
    OWN,
    POLICY,
    REVIEW,
    REVIEW_OR_MODERATE,
    is_allowed,
    refusal,
)
from tests.cast import person

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
    stated |= {"OPTIONS"} & {"OPTIONS" if is_api(address(pattern)) else ""}
    status = client.generic(method, address(pattern)).status_code
    assert (status == 405) == (method not in stated)


@pytest.mark.django_db
@pytest.mark.parametrize("role", [None, *Role])
def test_a_role_meets_what_its_policy_says(client, role):
    user = None
    if role:
        user = person("someone", role)
        client.force_login(user)
    wrong = [f"{method} {pattern.name}: {response.status_code}"
             for pattern in routes() for method, rule in POLICY[pattern.name].items()
             if is_refused(response := sent(client, user, method, address(pattern)))
             == (is_allowed(user, rule) if user else not rule.roles)]
    assert wrong == []


def sent(client, user, method, address):
    """The answer, for the person: some of these addresses sign out."""
    if user and is_api(address):
        return client.generic(method, address, headers={"Authorization": token_of(user)})
    if user:
        client.force_login(user)
    return client.generic(method, address)


def is_api(address):
    """Whether it knows tokens, and no sessions."""
    return address.startswith("/api/v1/")


def token_of(user):
    if not hasattr(user, "token"):
        _, user.token = issue_token(owner=user, name="test", scopes=("read", "contribute"), days=1)
    return f"Bearer {user.token}"


def is_refused(response):
    return response.status_code in (401, 403) or (
        response.status_code == 302 and response.url.startswith("/sign-in/?next"))


@pytest.mark.parametrize("role", Role)
@pytest.mark.parametrize("rule", [REVIEW, MODERATE, REVIEW_OR_MODERATE, ADMINISTER])
def test_a_trusted_role_acts_only_after_a_second_factor(role, rule):
    request = asked("GET", User(role=role))
    request.user.acts_in_role = False
    if role not in rule.roles:
        with pytest.raises(PermissionDenied, match="role"):
            refusal(request, rule)
        return
    assert refusal(request, rule).url == "/second-factor/?next=%2Fsomewhere%2F"


def test_after_a_form_there_is_nothing_to_come_back_to():
    request = asked("POST", User(role=Role.MODERATOR))
    request.user.acts_in_role = False
    assert refusal(request, MODERATE).url.endswith("?next=%2F")


@pytest.mark.parametrize("fields, words", [
    ({"suspended_at": timezone.now()}, "suspended"),
    ({"email_verified_at": None}, "not confirmed")])
def test_whoever_is_in_no_standing_reads_and_does_not_write(fields, words):
    user = User(**({"role": Role.CONTRIBUTOR, "email_verified_at": timezone.now()} | fields))
    assert refusal(asked("GET", user), BENCH) is None
    with pytest.raises(PermissionDenied, match=words):
        refusal(asked("POST", user), BENCH)
    assert refusal(asked("POST", user), OWN) is None


def test_no_role_has_what_another_has_by_rank():
    """Rows 22, 29 and 46 of the matrix: each is for one role alone."""
    for rule, role in ((REVIEW, Role.REVIEWER), (MODERATE, Role.MODERATOR),
                       (ADMINISTER, Role.ADMINISTRATOR)):
        assert [each for each in Role if is_allowed(User(role=each), rule)] == [role]


def asked(method, user):
    request = RequestFactory().generic(method, "/somewhere/")
    request.user = user
    return request


def test_a_deactivated_account_may_nothing():
    user = User(role=Role.ADMINISTRATOR, is_active=False)
    assert not user.has_role(*Role)
