"""Somebody proposes a change of the part library; a moderator decides about it."""
from __future__ import annotations

from math import isclose
from typing import Any

from django.db import transaction

from core.accounts.models import User
from core.audit.record import record
from core.stale import Stale
from teardowns.models import Change, Part, PartLimit, PartProposal
from teardowns.services.supersede_part import check_successor

from .proposals import WHY_NEEDED, Refused, check_waiting, open_proposal, save_by, take_back

DESCRIBED = ("function", "package", "note")
SOURCE = ("document", "revision", "place", "page")
LONGEST_CITATION = 300
OF_CHANGE: dict[str, tuple[str, ...]] = {       # what a proposal of each kind says
    Change.PART: ("marking", *DESCRIBED, "quantity", "value", *SOURCE),
    Change.DESCRIPTION: DESCRIBED,
    Change.LIMIT: ("quantity", "value", *SOURCE),
    Change.LIMIT_CHANGED: ("value", *SOURCE),
    Change.LIMIT_REMOVED: (),
    Change.SUPERSEDED: ("successor",),
}
KNOWN = "The library has this part already: open its page and propose a change of it there."
NOTHING = "This is what the library says already: change something, or leave it."
TWICE = "The library has this quantity with this source already: propose another value for it."


@transaction.atomic
def propose_part(*, proposer: User, change: str, why: str, part: Part | None = None,
                 limit: PartLimit | None = None, seen: int | None = None,
                 **said: Any) -> PartProposal:
    """A proposal that waits for a moderator; the library stays as it is.

    seen : version of the part that the proposer saw; Stale when it is another by now
    said : fields of the proposal, those of its kind; Refused says what is wrong with them
    """
    if not why.strip():
        raise Refused({"why": WHY_NEEDED})
    check_waiting(PartProposal, proposer)
    if part is not None:
        part = Part.objects.select_for_update().get(pk=part.pk)
        limit = _limit_now(part, limit)
        if seen is not None and seen != part.version:
            raise Stale(texts_now(change, part, limit))
    made = PartProposal(proposer=proposer, change=change, why=why.strip(), part=part, limit=limit,
                        **{name: said[name] for name in OF_CHANGE[Change(change)] if name in said})
    if limit is not None:
        made.quantity = limit.quantity
        made.before_value, made.before_citation = limit.value, limit.citation
    check_proposed(made)
    save_by(made, proposer)
    record(proposer, "part_proposed", subject=f"part_proposal/{made.pk}", reason=made.why,
           change=made.change, part=made.named)
    return made


@transaction.atomic
def take_back_part_proposal(*, proposer: User, proposal_pk: int) -> PartProposal:
    proposal = open_proposal(PartProposal, proposal_pk)
    take_back(proposal, proposer)
    record(proposer, "part_proposal_taken_back", subject=f"part_proposal/{proposal.pk}")
    return proposal


def check_proposed(proposal: PartProposal) -> None:
    """Raises Refused for what could not be accepted as the library stands now."""
    check = {Change.PART: _check_part, Change.DESCRIPTION: _check_description,
             Change.LIMIT: _check_limit, Change.LIMIT_CHANGED: _check_changed,
             Change.LIMIT_REMOVED: _check_removed, Change.SUPERSEDED: _check_superseded}
    check[Change(proposal.change)](proposal)


def part_to_adopt(marking: str) -> Part | None:
    """The entry that a bench sheet brought in under this marking, locked; Refused for a listed
    one."""
    part = Part.objects.select_for_update().filter(marking=marking).first()
    if part is not None and part.accepted_at is not None:
        raise Refused({"marking": KNOWN})
    return part


def texts_now(change: str, part: Part, limit: PartLimit | None) -> dict[str, Any]:
    """What the library says now of the fields that a proposal of this kind would change."""
    if change == Change.DESCRIPTION:
        return {name: getattr(part, name) for name in DESCRIBED}
    if change == Change.SUPERSEDED:
        return {"successor": part.superseded_by.marking if part.superseded_by else ""}
    if limit is not None:
        return {"value": limit.value, "document": limit.citation}
    return {}


def _limit_now(part, limit):
    if limit is None:
        return None
    found = part.limits.filter(pk=limit.pk).first()
    if found is None:
        raise Refused({"why": "This limit was taken out meanwhile: propose a new one instead."})
    return found


def _check_part(proposal):
    adopted = part_to_adopt(proposal.marking)
    if proposal.quantity:
        _check_source(proposal)
        if adopted is not None:
            _check_once(adopted, proposal)


def _check_description(proposal):
    if all(getattr(proposal, name) == getattr(proposal.part, name) for name in DESCRIBED):
        raise Refused({"function": NOTHING})


def _check_limit(proposal):
    _check_source(proposal)
    _check_once(proposal.part, proposal)


def _check_changed(proposal):
    _check_source(proposal)
    limit = _limit_now(proposal.part, proposal.limit or PartLimit())
    if isclose(limit.value, proposal.value, rel_tol=1e-9) and limit.citation == proposal.citation:
        raise Refused({"value": NOTHING})
    _check_once(proposal.part, proposal, but=limit)


def _check_removed(proposal):
    _limit_now(proposal.part, proposal.limit or PartLimit())


def _check_superseded(proposal):
    check_successor(proposal.part, proposal.successor)


def _check_source(proposal):
    if not proposal.document:
        raise Refused({"document": "A published value needs its source: name the document."})
    if not (proposal.place or proposal.page):
        raise Refused({"place": "Say where in the document it stands: its table or figure, or the "
                                "page."})
    if len(proposal.citation) > LONGEST_CITATION:
        raise Refused({"document": f"The source takes more than {LONGEST_CITATION} letters: "
                                   "shorten the document's name."})


def _check_once(part, proposal, but=None):
    others = part.limits.filter(quantity=proposal.quantity, citation=proposal.citation)
    if others.exclude(pk=but.pk if but else None).exists():
        raise Refused({"document": TWICE})
