"""What waits for a moderator in the library: proposals, the oldest first."""
from django.shortcuts import render

from teardowns.models import BoardFamilyMember, PartProposal
from teardowns.presenting.family_sheet import membership_line
from teardowns.presenting.lookalike_rows import lookalike_row, members_by_unit
from teardowns.presenting.part_sheet import proposal_line
from teardowns.services.tell_apart import candidates

MOST = 100
SHOWN = 30               # pairs of units that look alike


def library_queue(request):
    parts = PartProposal.objects.open().select_related(
        "part__superseded_by", "successor", "proposer", "decided_by").order_by("proposed_at")
    members = BoardFamilyMember.objects.open().select_related(
        "proposer", "decided_by", "removed_by", "unit", "family").order_by("proposed_at")
    pairs = list(candidates().select_related("first", "second", "family")[:SHOWN])
    return render(request, "teardowns/library_queue.html", {
        "parts": [{"line": proposal_line(one), "is_own": one.proposer_id == request.user.pk}
                  for one in parts[:MOST]],
        "members": [{"line": membership_line(one), "family": one.family,
                     "is_own": one.proposer_id == request.user.pk} for one in members[:MOST]],
        "pairs": _rows(pairs),
    })


def _rows(pairs):
    units = {pk for pair in pairs for pk in (pair.first_id, pair.second_id)}
    members = members_by_unit(BoardFamilyMember.objects.live().filter(
        unit__in=units).select_related("family"))
    return [lookalike_row(pair, [*members.get(pair.first_id, ()),
                                 *members.get(pair.second_id, ())]) for pair in pairs]
