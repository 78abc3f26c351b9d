"""The working life of a unit's evidence: which event leads from which state to which.

A unit that was never public has one such life, and each correction of a public one has its own.
The table is the whole rule; who may cause an event is decided by `teardowns.access`.
"""

# (state, event) → the state after it. What is not here cannot happen.
EVENTS: dict[tuple[str, str], str] = {
    ("draft", "submit"): "submitted",
    ("sent_back", "submit"): "submitted",
    ("submitted", "take_back"): "draft",
    ("in_review", "take_back"): "draft",
    ("draft", "discard"): "discarded",
    ("sent_back", "discard"): "discarded",
    ("submitted", "claim"): "in_review",
    ("in_review", "claim"): "in_review",
    ("in_review", "release"): "submitted",        # of the last claim without a decision
    ("submitted", "send_back"): "sent_back",
    ("in_review", "send_back"): "sent_back",
    ("submitted", "decline"): "declined",
    ("in_review", "decline"): "declined",
    ("declined", "reconsider"): "submitted",
    ("in_review", "publish"): "published",
    ("published", "withdraw"): "withdrawn",
    ("withdrawn", "reinstate"): "published",
}
STATES = ("draft", "submitted", "in_review", "sent_back", "published", "withdrawn", "declined",
          "discarded")
OPEN = frozenset({"draft", "sent_back"})                 # the bench sheet can be written on
WAITING = frozenset({"submitted", "in_review"})          # others look at it
CORRECTION_ENDS = frozenset({"published", "declined", "discarded"})

_DOES = {
    "submit": "submitted", "take_back": "taken back", "discard": "discarded", "claim": "reviewed",
    "release": "released", "send_back": "sent back", "decline": "declined",
    "reconsider": "considered anew", "publish": "published", "withdraw": "withdrawn",
    "reinstate": "published again",
}
_NAMES = {"draft": "still a draft", "submitted": "waiting for a review", "in_review": "in review",
          "sent_back": "sent back", "published": "published", "withdrawn": "withdrawn",
          "declined": "declined", "discarded": "discarded"}


class NotNow(Exception):
    """The state does not allow the event; the text is a sentence for the page."""


def after(state: str, event: str) -> str:
    """The state that an event leads to. Raises NotNow."""
    try:
        return EVENTS[state, event]
    except KeyError:
        raise NotNow(f"This record is {_NAMES[state]}, so it cannot be {_DOES[event]} now. "
                     "Load the page again to see where it stands.") from None
