"""What a moderator is offered for a record, by its state."""
from datetime import UTC, datetime
from types import SimpleNamespace

import pytest

from teardowns.models import Status
from teardowns.presenting.moderation_unit_sheet import unit_choices, unit_sheet
from teardowns.workflow import EVENTS, STATES


def record(status, quarantined=None, work=None):
    return SimpleNamespace(pk=7, status=status, work_status=work or status,
                           quarantined_at=quarantined)


def offered(unit):
    return {one["danger"] for one in unit_choices(unit)}


@pytest.mark.parametrize("state", STATES)
def test_events_are_offered_where_the_table_allows_them(state):
    for event in ("send_back", "decline"):
        assert (event in offered(record(state))) == ((state, event) in EVENTS)
    assert ("withdraw" in offered(record(state))) == (state in (Status.PUBLISHED, Status.WITHDRAWN))


@pytest.mark.parametrize("state", STATES)
def test_in_quarantine_it_is_released_and_neither_hidden_nor_quarantined(state):
    inside, outside = offered(record(state, quarantined="now")), offered(record(state))
    assert "release" in inside and not {"quarantine", "hide"} & inside
    assert "quarantine" in outside and "release" not in outside
    assert ("hide" in outside) == (state == Status.PUBLISHED)


def test_an_open_correction_is_decided_while_the_record_stays_public():
    found = offered(record(Status.PUBLISHED, work=Status.IN_REVIEW))
    assert {"send_back", "decline", "withdraw"} <= found


def test_every_choice_says_what_comes_of_it():
    assert all(one["remark"].endswith(".") and one["address"].startswith("/")
               for state in STATES for one in unit_choices(record(state)))


def test_a_serious_finding_that_two_have_not_confirmed_is_said_to_be_no_headline():
    unit = SimpleNamespace(**vars(record(Status.IN_REVIEW)), work_correction=None, work_author=3,
                           author_published=1, author_withdrawn=0, author_decisions=0)
    review = SimpleNamespace(
        status=Status.IN_REVIEW, is_ready=True, lacking="", decided=("a/b",), asked=("a/b",),
        disputed=(), conflicts=(), pairing=(), reviewers=("rita",), open_claims=(), remarks=(),
        serious_lacking=("Mains on the output",))
    sheet = unit_sheet(unit, review, [], datetime(2026, 3, 1, tzinfo=UTC))
    assert sheet["can_publish"] and sheet["review"]["decided"] == "1 of 1 rows decided"
    said, = sheet["review"]["headlines"]
    assert said.startswith("Mains on the output") and "without it as a headline" in said
