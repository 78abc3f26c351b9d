"""Answers that are kept: made once as long as nothing moves, for whoever asks."""
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from core import tallies
from teardowns.services.quarantine_unit import quarantine_unit
from teardowns.services.receive_reply import receive_reply, verify_reply
from teardowns.services.write_comment import write_comment
from tests.corrections import public_unit

from .speaking import Program


@pytest.fixture
def unit(alice, bob):
    """Its log has a beginning: without one nothing is kept."""
    unit = public_unit(alice)
    write_comment(author=bob, thing=unit, text="Where was it bought?")
    return unit


@pytest.fixture(params=["/units/{}", "/units"])
def address(request, unit):
    return request.param.format(unit.pk)


def asked(path, program=None):
    with CaptureQueriesContext(connection) as captured:
        answer = (program or Program()).get(path)
    return answer, len(captured)


def test_the_second_one_asks_what_has_changed_and_no_more(address, monkeypatch):
    monkeypatch.setattr(tallies, "LONGEST", 60.0)       # on a slow machine as well
    first, _ = asked(address)
    second, queries = asked(address)
    assert second.content == first.content and second["ETag"] == first["ETag"]
    assert {**second.headers, "X-Request-ID": "", "RateLimit": ""} == {
        **first.headers, "X-Request-ID": "", "RateLimit": ""}
    assert queries == 1                  # the limit is counted in the process meanwhile


def test_with_a_token_it_is_the_same_and_nobody_keeps_it(address, alice):
    first, _ = asked(address)
    mine, _ = asked(address, Program(alice))
    assert mine.content == first.content and mine["Cache-Control"] == "no-store"
    assert asked(address)[0]["Cache-Control"] == "no-cache"


def test_a_reply_shows_at_once(unit, bob, mona):
    path = f"/units/{unit.pk}"
    before = asked(path)[0]
    said = receive_reply(author=bob, unit_pk=unit.pk, text="The fuse was changed.",
                         author_name="Veltrice Ltd", language="en",
                         check_hint="press@veltrice.example", disputes=True)
    verify_reply(moderator=mona, version_pk=said.versions.get().pk, name="Veltrice Ltd",
                 checked_how="They answered.")
    after = asked(path)[0]
    assert after["ETag"] != before["ETag"] and "The fuse was changed." in after.content.decode()


def test_out_of_sight_it_is_gone_at_once(unit, mona):
    path = f"/units/{unit.pk}"
    assert asked(path)[0].status_code == 200 and asked("/units")[0].json()["total"] == 1
    quarantine_unit(moderator=mona, unit_pk=unit.pk, code="not_this_unit",
                    facts="Photo 2 shows another board.")
    assert asked(path)[0].status_code == 404 and asked("/units")[0].json()["total"] == 0
