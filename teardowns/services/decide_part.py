"""A moderator accepts or declines a change of the part library; what rests on it is assessed anew.
"""
from __future__ import annotations

from functools import partial

from django.db import IntegrityError, transaction
from django_q.tasks import async_task

from core.accounts.models import User
from core.audit.record import record
from core.stale import Stale
from teardowns.models import Change, Component, Part, PartLimit, PartProposal, ProposalState

from .accept_parts import accept
from .library_notices import tell_of_part
from .proposals import Refused, close, open_proposal, save_by
from .propose_part import DESCRIBED, KNOWN, check_proposed, part_to_adopt, texts_now
from .supersede_part import supersede_part

MOVES_NUMBERS = (Change.PART, Change.LIMIT, Change.LIMIT_CHANGED, Change.LIMIT_REMOVED)
SLICE = 50                  # units a job


@transaction.atomic
def accept_part(*, moderator: User, proposal_pk: int, version: int, part_version: int | None,
                reason: str) -> PartProposal:
    """The proposal becomes what the library says.

    version, part_version : of the proposal and of its part as the moderator saw them; Stale when
    either is another now. Raises Refused, Http404 for one's own proposal, NotNow when it is decided
    """
    proposal = open_proposal(PartProposal, proposal_pk, version)
    if proposal.part_id is not None:
        proposal.part = Part.objects.select_for_update().get(pk=proposal.part_id)
        if proposal.part.version != part_version:
            raise Stale(texts_now(proposal.change, proposal.part, proposal.limit))
    check_proposed(proposal)
    because = f"proposal {proposal.pk}"
    APPLY[Change(proposal.change)](proposal, moderator, because)
    accept(proposal.part, moderator, because)
    close(proposal, moderator, ProposalState.ACCEPTED, reason)
    units = _assess_anew(proposal)
    tell_of_part(proposal, moderator, units)
    record(moderator, "part_accepted", subject=f"part/{proposal.part.pk}", reason=proposal.reason,
           proposal=proposal.pk, change=proposal.change, part=proposal.named,
           quantity=proposal.quantity, before=proposal.before_value, now=proposal.value,
           units=len(units))
    return proposal


@transaction.atomic
def decline_part(*, moderator: User, proposal_pk: int, version: int, reason: str) -> PartProposal:
    """The library stays as it is. Raises Refused without a reason, Http404, NotNow or Stale."""
    proposal = open_proposal(PartProposal, proposal_pk, version)
    close(proposal, moderator, ProposalState.DECLINED, reason)
    tell_of_part(proposal, moderator)
    record(moderator, "part_declined", subject=f"part_proposal/{proposal.pk}",
           reason=proposal.reason, change=proposal.change, part=proposal.named)
    return proposal


def _new_part(proposal, moderator, because):
    part = part_to_adopt(proposal.marking) or Part(marking=proposal.marking)
    for name in DESCRIBED:
        setattr(part, name, getattr(proposal, name))
    part.curator = moderator        # of a bench sheet's own entry the contributor may change limits
    try:
        with transaction.atomic():
            proposal.part = save_by(part, moderator, because)
    except IntegrityError:          # another proposal of the same marking, at the same moment
        raise Refused({"marking": KNOWN}) from None
    if proposal.quantity:
        _new_limit(proposal, moderator, because)


def _describe(proposal, moderator, because):
    for name in DESCRIBED:
        setattr(proposal.part, name, getattr(proposal, name))


def _new_limit(proposal, moderator, because):
    proposal.limit = save_by(PartLimit(
        part=proposal.part, quantity=proposal.quantity, value=proposal.value,
        citation=proposal.citation), moderator, because)


def _change_limit(proposal, moderator, because):
    limit = proposal.limit
    limit.value, limit.citation = proposal.value, proposal.citation
    save_by(limit, moderator, because)


def _remove_limit(proposal, moderator, because):
    limit, proposal.limit = proposal.limit, None
    limit._history_user, limit._change_reason = moderator, because
    limit.delete()


def _supersede(proposal, moderator, because):
    supersede_part(proposal.part, proposal.successor)


APPLY = {Change.PART: _new_part, Change.DESCRIPTION: _describe, Change.LIMIT: _new_limit,
         Change.LIMIT_CHANGED: _change_limit, Change.LIMIT_REMOVED: _remove_limit,
         Change.SUPERSEDED: _supersede}


def _assess_anew(proposal):
    """Queue whatever cites the part, so that a page and the library never disagree for long."""
    if proposal.change not in MOVES_NUMBERS:
        return []
    units = list(Component.objects.filter(part=proposal.part).order_by("unit")
                 .values_list("unit", flat=True).distinct())
    for start in range(0, len(units), SLICE):
        transaction.on_commit(partial(
            async_task, "teardowns.jobs.reassess_units", units[start:start + SLICE]))
    return units
