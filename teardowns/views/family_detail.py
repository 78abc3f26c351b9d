"""One board family: its units side by side, what speaks for and against, and what changed."""
from django.shortcuts import get_object_or_404, render

from teardowns import access
from teardowns.models import BoardFamily, ProposalState, SisterReport
from teardowns.presenting.family_boards import beside_by_unit, family_boards
from teardowns.presenting.family_sheet import (
    APART,
    family_history,
    family_texts,
    member_lines,
    membership_line,
)
from teardowns.presenting.library_units import library_units

MOST = 60                # units side by side
EVENTS = 100


def family_detail(request, slug):
    family = get_object_or_404(BoardFamily.objects.select_related("pool"), slug=slug)
    members = list(family.memberships.select_related(
        "proposer", "decided_by", "removed_by", "unit"))
    current = {one.unit_id: one for one in members if one.state == ProposalState.ACCEPTED}
    public = [pk for pk, one in current.items() if one.unit.is_public]
    units = library_units(family.published_units()[:MOST])
    beside = beside_by_unit(SisterReport.objects.filter(
        publication__unit__in=[one.pk for one in units]).select_related("publication").defer(
            "publication__document", "publication__frozen", "publication__words"))
    public_members = [one for one in members if one.unit.is_public]
    history = family_history(
        family.history.select_related("history_user").order_by("history_id"), public_members)
    return render(request, "teardowns/family_detail.html", {
        "family": family, "apart": APART, "members": member_lines(units, current, beside),
        "boards": family_boards(getattr(family, "pool", None)),
        "number": len(public), "most": MOST, **family_texts(family),
        "waiting": [membership_line(one) for one in members
                    if one.is_open and access.may_see_proposal(request.user, one)],
        "history": history[:EVENTS], "may_edit": access.may_moderate(request.user),
    })
