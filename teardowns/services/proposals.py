"""What every proposal to the library goes through: one wait, one decision, never one's own."""
from __future__ import annotations

from typing import Any

from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.stale import Stale
from teardowns import access
from teardowns.models import ProposalState
from teardowns.workflow import NotNow

MOST_OPEN = 50               # proposals that one person may have waiting: a queue is read by people
TOO_MANY = (f"{MOST_OPEN} of your proposals wait for a moderator. Take one back, or send this one "
            "when some of them are decided.")
WHY_NEEDED = "Say why: whoever decides about it, and whoever reads the history, goes by it."
REASON_NEEDED = "Say why: the proposer reads it, and it stays in the history."


class Refused(Exception):
    """A change that cannot be kept; `errors` says by name of a field why and what to do."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__("; ".join(errors.values()))
        self.errors = errors


def check_waiting(model: Any, proposer: User) -> None:
    """Raises Refused for a person with so many open proposals that nobody could read them."""
    if model.objects.open().filter(proposer=proposer).count() >= MOST_OPEN:
        raise Refused({"why": TOO_MANY})


def open_proposal(model: Any, pk: int, version: int | None = None) -> Any:
    """The proposal, locked; Http404, NotNow when it does not wait any more.

    version : that the decider saw, or None for whoever needs none; Stale when it is another now
    """
    proposal = model.objects.select_for_update().filter(pk=pk).first()
    if proposal is None:
        raise Http404("No such proposal.")
    if not proposal.is_open:
        raise NotNow(f"This proposal was {proposal.get_state_display()} meanwhile: nothing is left "
                     "to decide about it.")
    if version is not None and proposal.version != version:
        raise Stale({"why": proposal.why})
    return proposal


def close(proposal: Any, moderator: User, state: ProposalState, reason: str) -> None:
    """Keep the decision. Raises Http404 for one's own, Refused without a reason."""
    if not access.may_decide_proposal(moderator, proposal):
        raise Http404("No such proposal to decide.")
    if not reason.strip():
        raise Refused({"reason": REASON_NEEDED})
    proposal.state, proposal.reason = state, reason.strip()
    proposal.decided_by, proposal.decided_at = moderator, timezone.now()
    proposal.version += 1
    save_by(proposal, moderator)


def take_back(proposal: Any, proposer: User) -> None:
    """Its proposer wants it no more."""
    if proposal.proposer_id != proposer.pk:
        raise Http404("No such proposal of yours.")
    proposal.state = ProposalState.TAKEN_BACK
    proposal.version += 1
    save_by(proposal, proposer)


def save_by(row: Any, author: User, because: str = "") -> Any:
    """The row, saved, with who did it and why in its history."""
    row._history_user = author
    row._change_reason = because or None
    row.save()
    return row
