"""Comments, proposals and statements, by a program."""
import pytest

from teardowns.models import BoardFamilyMember, Comment, Decision, PartProposal
from teardowns.services.state_reasons import give_reasons
from tests.api.speaking import Program, faults_of
from tests.handing_in import with_plate
from tests.library import POWER, family, listed
from tests.published import published

pytestmark = pytest.mark.django_db
LIMIT = {"change": "limit", "why": "Rev. 3 is out.", "fields": {
    "quantity": POWER, "value": "13 W", "document": "PZ6318 data sheet", "place": "table 1"}}


@pytest.fixture
def public(unit, alice):
    published(with_plate(unit, alice))
    return unit


@pytest.fixture
def program(bob):
    return Program(bob)


def test_a_comment_is_written_and_waits_for_a_moderator_at_first(program, public, bob):
    answer = program.post(f"/units/{public.pk}/comments", {
        "text": "Which side is this?", "about": "printedtext/plate"})
    assert answer.status_code == 201, answer.content
    assert faults_of(answer, "/units/{unit}/comments", "post") == []
    assert answer.json()["state"] == "held"
    comment = Comment.objects.get()
    assert (comment.author, comment.ref) == (bob, "printedtext/plate")
    assert Program().get(f"/units/{public.pk}/comments").json()["comments"] == []


def test_comments_that_are_shown_are_read_page_by_page(public, bob):
    for text in ("One.", "Two.", "Three."):
        Comment.objects.create(unit=public, author=bob, text=text,
                               written_at="2026-11-26T09:00:00+00:00")
    first = Program().get(f"/units/{public.pk}/comments?size=2")
    assert [each["text"] for each in first.json()["comments"]] == ["One.", "Two."]
    rest = Program().get(f"/units/{public.pk}/comments?cursor={first.json()['next']}")
    assert [each["text"] for each in rest.json()["comments"]] == ["Three."]


@pytest.mark.parametrize("said, pointer", [
    ({"text": ""}, "/text"), ({"text": " "}, "/text"), ({"text": "A" * 4001}, "/text"),
    ({"text": "A", "about": "component/none"}, "/about"), ({}, "/text")])
def test_what_is_wrong_with_a_comment_is_pointed_at(program, public, said, pointer):
    answer = program.post(f"/units/{public.pk}/comments", said)
    assert answer.status_code == 422
    assert pointer in [each["pointer"] for each in answer.json()["errors"]]


def test_nobody_comments_without_a_token_or_on_what_is_not_public(program, public, unit):
    path, said = f"/units/{public.pk}/comments", {"text": "Hm."}
    assert Program().post(path, said).status_code == 401
    type(unit).objects.filter(pk=unit.pk).update(status="draft")
    assert program.post(path, said).status_code == 404
    assert not Comment.objects.exists()


def test_parts_and_families_are_talked_about_too(program, mona):
    part, board = listed(mona), family(mona)
    for path in (f"/parts/{part.pk}/comments", f"/families/{board.slug}/comments"):
        assert program.post(path, {"text": "Seen twice."}).status_code == 201
    assert {each.thing for each in Comment.objects.all()} == {part, board}


def test_a_limit_of_a_part_is_proposed(program, mona, bob):
    part = listed(mona)
    answer = program.post("/parts/proposals", LIMIT | {"part": part.pk, "seen": part.version})
    assert answer.status_code == 201, answer.content
    assert faults_of(answer, "/parts/proposals", "post") == []
    made = PartProposal.objects.get()
    assert (made.proposer, made.value, part.limits.get().value) == (bob, 13.0, 12.0)


def test_a_limit_that_changed_meanwhile_is_told(program, mona):
    part = listed(mona)
    answer = program.post("/parts/proposals", {
        "change": "description", "part": part.pk, "seen": part.version + 1, "why": "See the sheet.",
        "fields": {"function": "primary switch"}})
    assert answer.status_code == 412
    assert answer.json()["current"]["function"] == "primary controller"


@pytest.mark.parametrize("said, pointer", [
    ({}, "/part"), ({"why": ""}, "/why"), ({"change": "limit_changed"}, "/limit"),
    ({"fields": {"colour": "red"}}, "/fields/colour"), ({"change": "odd"}, "/change"),
    ({"fields": LIMIT["fields"] | {"value": "13 stones"}}, "/fields/value"),
    ({"fields": LIMIT["fields"] | {"document": ""}}, "/fields/document")])
def test_what_is_wrong_with_a_proposal_is_pointed_at(program, mona, said, pointer):
    part = {} if pointer == "/part" else {"part": listed(mona).pk}
    answer = program.post("/parts/proposals", LIMIT | part | said)
    assert answer.status_code == 422
    assert pointer in [each["pointer"] for each in answer.json()["errors"]]
    assert not PartProposal.objects.exists()


def test_a_unit_is_proposed_for_a_family(program, mona, public):
    board = family(mona)
    path = f"/families/{board.slug}/members"
    answer = program.post(path, {"unit": public.pk, "why": "The same print."})
    assert answer.status_code == 201 and BoardFamilyMember.objects.get().unit == public
    again = program.post(path, {"unit": public.pk, "why": "The same print."})
    assert again.json()["errors"][0]["pointer"] == "/unit"
    assert program.post("/families/none/members", {"unit": 1, "why": "A."}).status_code == 404
    assert program.post(path, {"unit": 2**63, "why": "A."}).status_code == 422


def test_statements_are_read_by_whom_they_address(program, bob, alice, mona, unit):
    give_reasons(decision=Decision.SEND_BACK, code="other", facts="The plate is unreadable.",
                 subject=f"unit/{unit.pk}", unit=unit, addressee=bob, by=mona)
    answer = program.get("/statements")
    assert faults_of(answer, "/statements") == []
    assert [each["facts"] for each in answer.json()["statements"]] == ["The plate is unreadable."]
    assert Program(alice).get("/statements").json()["statements"] == []
    assert Program().get("/statements").status_code == 401
