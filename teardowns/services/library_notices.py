"""Who hears of a decision in the library: its proposer, and whoever watches what changed."""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from core.accounts.models import User
from teardowns.models import BoardFamilyMember, NoticeKind, PartProposal, ProposalState, Unit

from .notify import notify
from .watch import watchers_of

NAMED = 10               # units in one notice


def tell_of_part(proposal: PartProposal, moderator: User, units: Sequence[int] = ()) -> None:
    """Call it before the decision is recorded.

    units : that cite the part, where one of its limits changed
    """
    _tell_proposer(proposal, moderator, f"part_proposal/{proposal.pk}")
    if proposal.state == ProposalState.ACCEPTED and proposal.part is not None:
        notify(watchers_of(proposal.part).exclude(pk=proposal.proposer_id), NoticeKind.PART,
               actor=moderator, subject=f"part/{proposal.part.pk}", words=str(proposal),
               address=proposal.part.get_absolute_url(), event=f"part_proposal/{proposal.pk}")
        _tell_contributors(proposal, moderator, units)


def tell_of_member(member: BoardFamilyMember, moderator: User) -> None:
    _tell_proposer(member, moderator, f"family_member/{member.pk}")
    if member.state in (ProposalState.ACCEPTED, ProposalState.REMOVED):
        change = "taken in" if member.state == ProposalState.ACCEPTED else "removed"
        notify(watchers_of(member.family).exclude(pk=member.proposer_id), NoticeKind.FAMILY,
               actor=moderator, subject=f"family/{member.family_id}",
               words=f"{member.family}: unit {member.unit_id} {change}",
               address=member.family.get_absolute_url(),
               event=f"family_member/{member.pk}/{member.state}")


def _tell_contributors(proposal, moderator, units):
    """A published version keeps the limit that it was published with, until it is corrected."""
    theirs = defaultdict(list)
    public = Unit.objects.published().filter(pk__in=units).order_by("pk")
    for person, unit in public.values_list("contributor", "pk"):
        theirs[person].append(unit)
    for person, pks in theirs.items():
        named = ", ".join(map(str, pks[:NAMED])) + (" and more" if len(pks) > NAMED else "")
        notify([person], NoticeKind.PART, actor=moderator,
               subject=f"part/{proposal.part.pk}",
               words=f"{proposal}. Published with what stood before, so perhaps to be corrected: "
                     f"unit {named}",
               address=proposal.part.get_absolute_url(),
               event=f"part_proposal/{proposal.pk}/units")


def _tell_proposer(proposal, moderator, subject):
    notify([proposal.proposer_id], NoticeKind.PROPOSAL, actor=moderator, subject=subject,
           words=f"{proposal}: {proposal.get_state_display()}",
           address=proposal.get_absolute_url(), event=f"{subject}/{proposal.state}")
