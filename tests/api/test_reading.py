"""Everything public is read without a token, as described, within few queries, and no more."""
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import get_resolver, reverse

from core.policy import ANYONE, POLICY
from teardowns.api.openapi import openapi_document
from teardowns.models import ContributionLicence, ListedUnit, Status, Submission, Unit
from tests.library import listed

from .public_world import addresses, world  # noqa: F401  (fixture)
from .speaking import Program, faults_of, next_of

OF_UNIT = "/units/{unit}"
MOST_QUERIES = 12


def public_paths():
    return {path for path, methods in openapi_document()["paths"].items()
            if "get" in methods and not methods["get"]["security"]}


def test_every_public_address_answers_as_described_within_twelve_queries(world):  # noqa: F811
    asked, program, wrong = addresses(world), Program(), []
    assert set(asked) == public_paths()
    for path, address in asked.items():
        with CaptureQueriesContext(connection) as queries:
            answer = program.get(address)
        wrong += [f"{address}: {fault}" for fault in faults_of(answer, path)]
        if answer.status_code != 200 or len(queries) > MOST_QUERIES:
            wrong.append(f"{address}: {answer.status_code}, {len(queries)} queries")
    assert not wrong, "\n".join(wrong)


def test_every_address_has_a_validator_and_is_empty_when_nothing_is_new(world):  # noqa: F811
    program = Program()
    for address in addresses(world).values():
        first = program.get(address)
        again = program.get(address, If_None_Match=first["ETag"])
        assert (again.status_code, again.content) == (304, b""), address
        assert again["ETag"] == first["ETag"]


def test_head_says_what_get_says_without_its_body(world):  # noqa: F811
    program = Program()
    for address in addresses(world).values():
        whole, head = program.get(address), program.ask("HEAD", address)
        assert head.content == b"" and head.status_code == 200
        assert head["ETag"] == whole["ETag"]
        assert int(head["Content-Length"]) == len(whole.content)


def test_what_is_not_public_is_not_there_for_anybody(world):  # noqa: F811
    """Not even for the owner's program: what is public is the same for everybody."""
    asked = {path: address for path, address in addresses(world).items()
             if path.startswith(OF_UNIT)}
    Unit.objects.filter(pk=world.unit.pk).update(quarantined_at="2026-11-26T00:00:00+00:00")
    for program in (Program(), Program(world.people["owner"]), Program(world.people["moderator"])):
        seen = {address: answer.status_code for address in asked.values()
                if (answer := program.get(address)).status_code != 404}
        assert seen == {}


def test_a_withdrawn_unit_says_when_and_why(world):  # noqa: F811
    asked = [address for path, address in addresses(world).items() if path.startswith(OF_UNIT)]
    unit = world.unit
    Unit.objects.filter(pk=unit.pk).update(status=Status.WITHDRAWN)
    unit.publications.filter(pk=unit.publication_id).update(
        withdrawn_at="2026-11-26T00:00:00+00:00", withdrawal_code="not_this_unit",
        withdrawal_reason="Photo 2 shows another board.")
    for address in asked:
        answer = Program().get(address)
        assert answer.status_code == 410, address
        assert answer.json()["withdrawn"]["facts"] == "Photo 2 shows another board."


@pytest.mark.django_db
@pytest.mark.parametrize("name", sorted(name for name in POLICY if name.startswith("api_")))
def test_another_method_is_refused_with_those_that_are_taken(name):
    arguments = get_resolver().reverse_dict.getlist(name)[0][0][0][1]
    sample = {"unit": 1, "number": 1, "other": 1, "id": 1, "end": "low", "slug": "none",
              "list": "measurements", "key": "none", "group": "power", "rule": "none"}
    address = reverse(name, kwargs={each: sample[each] for each in arguments})
    if not address.startswith("/api/v1"):
        return
    taken = {*POLICY[name], *(("HEAD",) if "GET" in POLICY[name] else ()), "OPTIONS"}
    for method in {"GET", "POST", "PUT", "PATCH", "DELETE", "TRACE", "BREW"} - taken:
        answer = Program().ask(method, address)
        assert answer.status_code == 405, method
        assert answer["Content-Type"] == "application/problem+json"
        assert set(answer["Allow"].split(", ")) == taken
    offered = Program().ask("OPTIONS", address)
    assert offered.status_code == 204 and set(offered["Allow"].split(", ")) == taken


@pytest.mark.django_db
def test_scripts_of_other_origins_read_what_is_public_and_without_a_token(alice):
    here = Program().get("/quantities", Origin="https://elsewhere.example")
    assert here["Access-Control-Allow-Origin"] == "*"
    assert "Access-Control-Allow-Credentials" not in here
    with_token = Program(alice).get("/quantities", Origin="https://elsewhere.example")
    assert "Access-Control-Allow-Origin" not in with_token
    assert with_token["Cache-Control"] == "no-store"


@pytest.mark.django_db
@pytest.mark.parametrize("path, method, allowed", [
    ("/units", "GET", True), ("/bench", "GET", False), ("/units/1/comments", "POST", False)])
def test_a_preflight_offers_reading_in_public_alone(path, method, allowed):
    answer = Program().ask("OPTIONS", path, Origin="https://elsewhere.example",
                           Access_Control_Request_Method=method)
    assert ("Access-Control-Allow-Methods" in answer) == allowed
    assert "Authorization" not in answer.get("Access-Control-Allow-Headers", "")


@pytest.mark.django_db
@pytest.mark.parametrize("path, status", [
    ("/units?size=5&size=6", 422), ("/search?q=a&q=b", 422),
    ("/units?verdict=supported&verdict=possible", 200)])
def test_a_parameter_that_stands_twice_is_refused_where_one_is_meant(path, status):
    answer = Program().get(path)
    assert answer.status_code == status
    if status == 422:
        assert "more than once" in answer.json()["errors"][0]["detail"]


@pytest.mark.django_db
def test_a_cookie_opens_nothing(client, alice):
    client.force_login(alice)
    assert client.get("/api/v1/bench").status_code == 401
    answer = client.post("/api/v1/bench", "{}", content_type="application/json")
    assert answer.status_code == 401 and "Bearer" in answer["WWW-Authenticate"]
    assert not answer.cookies


@pytest.mark.django_db
@pytest.mark.parametrize("path", [
    "/units/99999999999999999999999", "/units?size=0", "/units?size=1e9", "/units?verdict=odd",
    "/units?nothing=1", "/search?q=%00", "/search", "/log?unit=-1", "/parts?q=%00x",
    "/population?size=-1", "/units?size=99999999999999999999"])
def test_a_bad_parameter_is_named(path):
    answer = Program().get(path)
    assert answer.status_code == 422
    assert answer["Content-Type"] == "application/problem+json"
    assert all(each["parameter"] and each["detail"] for each in answer.json()["errors"])


@pytest.mark.django_db
@pytest.mark.parametrize("cursor", [
    "zzz", "%00", "WyJhIl0", "W10", "bnVsbA", "WzFlOTldXQ", "WzEyMzQ1Njc4OTAxMjM0NTY3ODkwMTJd"])
@pytest.mark.parametrize("path", ["/log", "/search?q=a", "/population", "/units/1/comments"])
def test_a_cursor_that_is_none_leads_nowhere(path, cursor):
    joint = "&" if "?" in path else "?"
    assert Program().get(f"{path}{joint}cursor={cursor}").status_code in (404, 422)


@pytest.mark.django_db
def test_in_clear_nothing_is_answered_where_the_site_is_served_over_https(settings):
    settings.HTTPS = settings.SECURE_SSL_REDIRECT = True
    answer = Program().get("/units")
    assert (answer.status_code, "https" in answer.json()["detail"]) == (403, True)


def test_api_answers_are_never_pages(world):  # noqa: F811
    for address in ("/units", "/nowhere", "/bench"):
        answer = Program().get(address)
        assert answer["Content-Security-Policy"] == "default-src 'none'; frame-ancestors 'none'"
        assert answer["X-Content-Type-Options"] == "nosniff"
        assert answer["Content-Type"].startswith("application/")


def test_anyone_is_the_rule_of_what_is_read_in_public():
    assert POLICY["api_units"]["GET"] is ANYONE


def test_a_version_is_not_sent_again_to_who_has_it_since_its_day(world):  # noqa: F811
    path = f"/units/{world.unit.pk}/versions/1"
    first = Program().get(path)
    again = Program().get(path, If_Modified_Since=first["Last-Modified"])
    assert (again.status_code, again.content) == (304, b"")
    older = Program().get(path, If_Modified_Since="Wed, 01 Jan 2020 00:00:00 GMT")
    assert older.status_code == 200


def test_a_document_carries_the_terms_of_its_handing_in(world):  # noqa: F811
    unit = world.unit
    handed_in = Submission.objects.create(unit=unit, author=unit.contributor)
    ContributionLicence.objects.create(
        submission=handed_in, unit=unit, author=unit.contributor, measurements="CC0-1.0",
        works="CC-BY-4.0", edition=1, text_sha256="ab" * 32, own_rights=True, third_party="none")
    one, = Program().get(f"/units/{unit.pk}/document").json()["licences"]
    assert (one["author"], one["works"]) == (unit.contributor.get_username(), "CC-BY-4.0")


def test_pages_lead_to_the_next_by_the_header_too(world):  # noqa: F811
    asked, seen = "/parts?size=1", []
    listed(world.people["publisher"], "QZ1")
    while asked:
        answer = Program().get(asked)
        seen += [part["marking"] for part in answer.json()["parts"]]
        asked = next_of(answer)
    assert seen == sorted(seen) and len(seen) == 2


def test_a_unit_that_is_not_listed_yet_is_read_all_the_same(world):  # noqa: F811
    path = f"/units/{world.unit.pk}"
    listed_row = Program().get(path).json()
    ListedUnit.objects.all().delete()
    answer = Program().get(path)
    assert faults_of(answer, "/units/{unit}") == []
    assert answer.json()["capability"] == listed_row["capability"]
