"""Board families: a moderator keeps the heading; people propose units, moderators decide."""
from __future__ import annotations

from typing import Any

from django.db import IntegrityError, transaction
from django.db.models import Q
from django.http import Http404
from django.utils import timezone
from django.utils.text import slugify

from core.accounts.models import User
from core.audit.record import record
from core.stale import Stale
from teardowns import access
from teardowns.models import (
    BoardFamily,
    BoardFamilyMember,
    CandidateState,
    Lookalike,
    ProposalState,
    Unit,
)
from teardowns.workflow import NotNow

from .evidence_refs import check_refs
from .index_words import index_families
from .library_notices import tell_of_member
from .list_units import list_units
from .listing_clock import hold_clock, raise_clock
from .proposals import (
    REASON_NEEDED,
    WHY_NEEDED,
    Refused,
    check_waiting,
    close,
    open_proposal,
    save_by,
    take_back,
)

RESERVED = {"open", "units"}          # pages of the site have these addresses
TEXTS = ("name", "description", "evidence_for", "evidence_against")
TAKEN = "Another family has this name: choose another, or add the unit to that one."
IN_ALREADY = "This unit belongs to the family already, or a proposal that it does is waiting."
NOT_PUBLIC = "Only a published unit can belong to a family: give the number of one."


@transaction.atomic
def create_family(*, moderator: User, alike: int | None = None, **texts: str) -> BoardFamily:
    """A family without units. Raises Refused.

    alike : a pair of units that it is opened for; each is proposed for it by itself
    """
    family = _keep(BoardFamily(curator=moderator), moderator, texts, "family_created")
    if alike is not None:
        Lookalike.objects.filter(pk=alike, state=CandidateState.OPEN).update(family=family)
    return family


def rename_family(*, moderator: User, family_pk: int, version: int, **texts: str) -> BoardFamily:
    """Another name, description or evidence; the address stays.

    version : that the moderator saw; Stale when it is another by now
    """
    with transaction.atomic():
        family = _locked(family_pk)
        if family.version != version:
            raise Stale({name: getattr(family, name) for name in TEXTS})
        family.version += 1
        return _keep(family, moderator, texts, "family_changed")


def propose_member(*, proposer: User, family_pk: int, unit_pk: int, why: str,
                   alike: int | None = None) -> BoardFamilyMember:
    """That a published unit belongs to the family, with what speaks for it. Raises Refused.

    alike : a pair that it is one of, whose likeness is kept with the proposal
    """
    if not why.strip():
        raise Refused({"why": WHY_NEEDED})
    check_waiting(BoardFamilyMember, proposer)
    check_refs("why", why)
    unit = Unit.objects.published().filter(pk=unit_pk).first()
    if unit is None:
        raise Refused({"unit": NOT_PUBLIC})
    member = BoardFamilyMember(family_id=family_pk, unit=unit, proposer=proposer, why=why.strip(),
                               similarity=_likeness(alike, unit_pk))
    try:
        with transaction.atomic():
            save_by(member, proposer)
            record(proposer, "member_proposed", unit=unit, subject=f"family/{family_pk}",
                   reason=member.why, proposal=member.pk)
    except IntegrityError:
        raise Refused({"unit": IN_ALREADY}) from None
    return member


@transaction.atomic
def decide_member(*, moderator: User, member_pk: int, version: int, accepted: bool,
                  reason: str) -> BoardFamilyMember:
    """Raises Refused without a reason, Http404 for one's own proposal or unit, NotNow or Stale."""
    member = open_proposal(BoardFamilyMember, member_pk, version)
    if not access.may_decide(moderator, member.unit):
        raise Http404("No such unit to decide about.")
    if accepted and not member.unit.is_public:
        raise NotNow("This unit is not public any more, so it cannot join a family now.")
    state = ProposalState.ACCEPTED if accepted else ProposalState.DECLINED
    close(member, moderator, state, reason)
    tell_of_member(member, moderator)
    list_units([member.unit_id])
    _note(member, moderator, f"member_{state}", member.reason)
    return member


@transaction.atomic
def take_back_member(*, proposer: User, member_pk: int) -> BoardFamilyMember:
    member = open_proposal(BoardFamilyMember, member_pk)
    take_back(member, proposer)
    _note(member, proposer, "member_taken_back", "")
    return member


@transaction.atomic
def remove_member(*, moderator: User, member_pk: int, version: int,
                  reason: str) -> BoardFamilyMember:
    """The unit belongs to the family no more. Raises Refused without a reason, NotNow or Stale."""
    if not access.may_moderate(moderator):
        raise Http404("No such unit of a family.")
    member = BoardFamilyMember.objects.select_for_update().filter(pk=member_pk).first()
    if member is None:
        raise Http404("No such unit of a family.")
    if member.state != ProposalState.ACCEPTED:
        raise NotNow("This unit does not belong to the family, so it cannot be removed from it.")
    if member.version != version:
        raise Stale({"reason": member.reason})
    if not reason.strip():
        raise Refused({"reason": REASON_NEEDED})
    member.state, member.removal_reason = ProposalState.REMOVED, reason.strip()
    member.removed_by, member.removed_at = moderator, timezone.now()
    member.version += 1
    save_by(member, moderator)
    tell_of_member(member, moderator)
    list_units([member.unit_id])
    _note(member, moderator, "member_removed", member.removal_reason)
    return member


def _likeness(alike, unit_pk):
    if alike is None:
        return None
    pairs = Lookalike.objects.filter(Q(first=unit_pk) | Q(second=unit_pk), pk=alike)
    return pairs.values_list("score", flat=True).first()


def _keep(family, moderator, texts: dict[str, Any], action):
    if not access.may_moderate(moderator):
        raise Http404("No such family to change.")
    for name in TEXTS:
        setattr(family, name, texts[name].strip())
        check_refs(name, texts[name])
    family.slug = family.slug or _free_slug(family.name)
    try:
        with transaction.atomic():
            save_by(family, moderator)
            index_families([family.pk])
            raise_clock(hold_clock())           # lists print the name
            record(moderator, action, subject=f"family/{family.pk}", name=family.name)
    except IntegrityError:
        raise Refused({"name": TAKEN}) from None
    return family


def _free_slug(name):
    """Of the name, with a number where another family, perhaps renamed since, has it."""
    slug = slugify(name)[:100] or "family"
    taken = RESERVED.union(
        BoardFamily.objects.filter(slug__startswith=slug).values_list("slug", flat=True))
    numbered = (f"{slug}-{n}" for n in range(2, len(taken) + 3))
    return slug if slug not in taken else next(one for one in numbered if one not in taken)


def _locked(pk):
    family = BoardFamily.objects.select_for_update().filter(pk=pk).first()
    if family is None:
        raise Http404("No such family.")
    return family


def _note(member, actor, action, reason):
    record(actor, action, unit=member.unit_id, subject=f"family/{member.family_id}", reason=reason,
           proposal=member.pk)
