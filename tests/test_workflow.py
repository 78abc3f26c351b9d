"""Every state and every event of a work's life, from one table."""
import pytest

from teardowns.workflow import CORRECTION_ENDS, EVENTS, OPEN, STATES, WAITING, NotNow, after

# Written from the matrix of rights (13 to 16, 31), not from the code: one column an event,
# "." where it must not happen.
TABLE = """
           submit    take_back discard   claim     release   send_back decline  reconsider publish   withdraw  reinstate
draft      submitted .         discarded .         .         .         .        .          .         .         .
submitted  .         draft     .         in_review .         sent_back declined .          .         .         .
in_review  .         draft     .         in_review submitted sent_back declined .          published .         .
sent_back  submitted .         discarded .         .         .         .        .          .         .         .
published  .         .         .         .         .         .         .        .          .         withdrawn .
withdrawn  .         .         .         .         .         .         .        .          .         .         published
declined   .         .         .         .         .         .         .        submitted  .         .         .
discarded  .         .         .         .         .         .         .        .          .         .         .
"""  # noqa: E501
HEADS, *LINES = [line.split() for line in TABLE.strip().splitlines()]
CELLS = [(line[0], event, told) for line in LINES
         for event, told in zip(HEADS, line[1:], strict=True)]


@pytest.mark.parametrize("state, event, told", CELLS)
def test_an_event_leads_where_the_table_says_or_nowhere(state, event, told):
    if told != ".":
        assert after(state, event) == told
        return
    with pytest.raises(NotNow, match="Load the page again"):
        after(state, event)


def test_the_table_knows_every_state_and_every_event():
    assert {line[0] for line in LINES} == set(STATES)
    assert set(HEADS) == {event for _, event in EVENTS}


def test_a_sheet_is_open_or_waits_or_neither():
    assert not OPEN & WAITING
    assert set(STATES) > OPEN | WAITING | CORRECTION_ENDS
