"""One part: what it is, its limits with their sources, who contains it, and what changed."""
from django.shortcuts import render

from teardowns import access
from teardowns.engine.quantities import QUANTITIES
from teardowns.models import Part, PartLimit, ProposalState
from teardowns.presenting.part_history import part_history
from teardowns.presenting.part_powers import CAUTIONS, by_unit, comparisons
from teardowns.presenting.part_sheet import containing, limit_lines, offers, proposal_line
from teardowns.services.part_powers import powers_of_units
from teardowns.services.part_uses import MOST, units_with_part

EVENTS = 100             # of the history


def part_detail(request, pk):
    part = access.part_to_see(request.user, pk)
    proposals = list(part.proposals.select_related(
        "part__superseded_by", "successor", "proposer", "decided_by"))
    accepted = [one for one in proposals if one.state == ProposalState.ACCEPTED]
    waiting = [one for one in proposals
               if one.is_open and access.may_see_proposal(request.user, one)]
    history = part_history(
        part.history.select_related("history_user", "superseded_by").order_by("history_id"),
        PartLimit.history.filter(part_id=part.pk).select_related("history_user")
        .order_by("history_id"), accepted)
    if not access.may_moderate(request.user):
        history = [event for event in history if _was_looked_at(event, part)]
    changed = next((event.at for event in history if event.of_limit), None)
    units = units_with_part(part)
    powers = powers_of_units(one.pk for one in units.units) if units.units else []
    limits = list(part.limits.order_by("quantity", "pk"))
    return render(request, "teardowns/part_detail.html", {
        "part": part, "limits": limit_lines(limits, QUANTITIES),
        "supersedes": Part.objects.listed().filter(superseded_by=part).order_by("marking"),
        "containing": containing(units.units, changed, by_unit(limits, powers)),
        "number": units.number, "most": MOST,
        "comparisons": comparisons(limits, powers), "cautions": CAUTIONS,
        "history": history[:EVENTS], "waiting": [proposal_line(one) for one in waiting],
        "offers": offers(part),
    })


def _was_looked_at(event, part):
    """What a bench sheet wrote before a moderator accepted the part is not for every reader."""
    return part.accepted_at is not None and (event.at >= part.accepted_at or event.why != "")
