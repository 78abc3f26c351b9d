"""A unit in a family, or proposed for it: its reasons, the decision, and its removal."""
from django.http import Http404
from django.shortcuts import render

from core.once import once
from core.stale import Stale
from teardowns import access
from teardowns.forms.part_forms import DecisionForm
from teardowns.models import BoardFamilyMember, ProposalState
from teardowns.presenting.family_sheet import APART, membership_line
from teardowns.services.edit_family import decide_member, remove_member, take_back_member
from teardowns.views.proposal_steps import decided, taken_back

PEOPLE = ("proposer", "decided_by", "removed_by", "unit", "family")
CHANGED = ("Somebody changed it since you opened the page; what it says now stands above, and your "
           "words are kept below.")
DONE = {"accept": "Accepted: the unit belongs to the family now.",
        "decline": "Declined: the family stays as it is.",
        "remove": "Removed: the unit belongs to the family no more."}


def family_member(request, pk):
    return _page(request, _member(request, pk))


@once
def family_decide(request, pk):
    """A moderator accepts, declines or removes, with a reason."""
    member, decision = _member(request, pk), request.POST.get("decision")
    if decision not in DONE:
        raise Http404("There is no such decision.")
    form = DecisionForm(request.POST)
    try:
        return decided(request, member, form, lambda said: _decide(member.pk, decision, said),
                       lambda: _page(request, member, form))
    except Stale:
        member = _member(request, pk)
        form.see_now(member.version)
        form.add_error(None, CHANGED)
        return _page(request, member, form)


def _decide(pk, decision, said):
    if decision == "remove":
        remove_member(member_pk=pk, **said)
    else:
        decide_member(member_pk=pk, accepted=decision == "accept", **said)
    return DONE[decision]


@once
def family_take_back(request, pk):
    member = _member(request, pk)
    return taken_back(request, member, lambda: take_back_member(
        proposer=request.user, member_pk=member.pk))


def _member(request, pk):
    return access.proposal_to_see(
        request.user, BoardFamilyMember.objects.select_related(*PEOPLE), pk)


def _page(request, member, form=None):
    return render(request, "teardowns/family_member.html", {
        "member": member, "family": member.family, "line": membership_line(member),
        "apart": APART, "form": form or DecisionForm(initial={"seen": member.version}),
        "may_decide": member.is_open and access.may_decide_proposal(request.user, member)
        and access.may_decide(request.user, member.unit),
        "may_remove": member.state == ProposalState.ACCEPTED
        and access.may_moderate(request.user),
        "is_own": member.proposer_id == request.user.pk,
    })
