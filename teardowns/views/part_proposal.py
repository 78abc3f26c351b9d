"""One proposal to the part library, for who made it and for moderators; and its decision."""
from django.shortcuts import render

from core.once import once
from core.stale import Stale
from teardowns import access
from teardowns.forms.part_forms import DecisionForm
from teardowns.models import Component, PartProposal
from teardowns.presenting.library_texts import linked
from teardowns.presenting.part_sheet import differences, proposal_line, stale_lines
from teardowns.services.decide_part import MOVES_NUMBERS, accept_part, decline_part
from teardowns.services.propose_part import take_back_part_proposal
from teardowns.views.proposal_steps import decided, taken_back

PEOPLE = ("proposer", "decided_by", "part__superseded_by", "successor", "limit")


def part_proposal(request, pk):
    return _page(request, _proposal(request, pk))


@once
def part_decide(request, pk):
    """A moderator accepts or declines, with a reason."""
    proposal = _proposal(request, pk)
    form = DecisionForm(request.POST)
    try:
        return decided(request, proposal, form, lambda said: _decide(request, pk, form, said),
                       lambda: _page(request, proposal, form))
    except Stale as changed:
        return _page(request, _proposal(request, pk), form, changed.current)


def _decide(request, pk, form, said):
    if request.POST.get("decision") != "accept":
        decline_part(proposal_pk=pk, **said)
        return "Declined: the library stays as it is."
    accept_part(proposal_pk=pk, part_version=form.cleaned_data["part_seen"], **said)
    return "Accepted: the library says so now."


@once
def part_take_back(request, pk):
    proposal = _proposal(request, pk)
    return taken_back(request, proposal, lambda: take_back_part_proposal(
        proposer=request.user, proposal_pk=proposal.pk))


def _proposal(request, pk):
    return access.proposal_to_see(
        request.user, PartProposal.objects.select_related(*PEOPLE), pk)


def _page(request, proposal, form=None, current=None):
    part = proposal.part
    seen = {"seen": proposal.version, "part_seen": part.version if part else None}
    stale = None
    if current is not None:
        stale = stale_lines({one.label: one.after for one in differences(proposal)}, current,
                            proposal.quantity)
    if form is None:
        form = DecisionForm(initial=seen)
    elif current is not None:
        form.see_now(seen["seen"], part_seen=seen["part_seen"])
    return render(request, "teardowns/part_proposal.html", {
        "proposal": proposal, "part": part, "form": form, "stale": stale,
        "line": proposal_line(proposal), "differences": differences(proposal),
        "why": linked(proposal.why),
        "may_decide": proposal.is_open and access.may_decide_proposal(request.user, proposal),
        "is_own": proposal.proposer_id == request.user.pk,
        "moves": _moved(proposal) if proposal.is_open else 0,
    })


def _moved(proposal):
    """How many units would be assessed anew."""
    if proposal.part is None or proposal.change not in MOVES_NUMBERS:
        return 0
    return Component.objects.filter(part=proposal.part).values("unit").distinct().count()
