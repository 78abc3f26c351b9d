"""Parts, proposals and board families."""
from django.http import Http404

from teardowns.models import BoardFamily, Part

from .units import may_moderate


def part_to_see(user, pk):
    """The library's entry, or 404: what a bench sheet brought in is its contributor's at first."""
    part = Part.objects.visible_to(user).select_related("superseded_by", "curator").filter(
        pk=pk).first()
    if part is None:
        raise Http404("No such part in the library.")
    return part


def proposal_to_see(user, proposals, pk):
    """The proposal, of those asked for, or 404: its proposer's and the moderators' business."""
    proposal = proposals.visible_to(user).filter(pk=pk).first()
    if proposal is None:
        raise Http404("No such proposal.")
    return proposal


def may_see_proposal(user, proposal):
    """Whether a proposal is this person's own, or they moderate."""
    return may_moderate(user) or (user.is_authenticated and proposal.proposer_id == user.pk)


def may_decide_proposal(user, proposal):
    """Whether this moderator may decide about a proposal: never about their own."""
    return may_moderate(user) and proposal.proposer_id != user.pk


def family_to_see(slug):
    """The board family, or 404: every one is public."""
    family = BoardFamily.objects.filter(slug=slug).first()
    if family is None:
        raise Http404("No such family.")
    return family
