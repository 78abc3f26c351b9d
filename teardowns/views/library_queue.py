"""What waits for a moderator in the library: proposals, the oldest first."""
from django.shortcuts import render

from teardowns.models import BoardFamilyMember, PartProposal
from teardowns.presenting.family_sheet import membership_line
from teardowns.presenting.part_sheet import proposal_line

MOST = 100


def library_queue(request):
    parts = PartProposal.objects.open().select_related(
        "part__superseded_by", "successor", "proposer", "decided_by").order_by("proposed_at")
    members = BoardFamilyMember.objects.open().select_related(
        "proposer", "decided_by", "removed_by", "unit", "family").order_by("proposed_at")
    return render(request, "teardowns/library_queue.html", {
        "parts": [{"line": proposal_line(one), "is_own": one.proposer_id == request.user.pk}
                  for one in parts[:MOST]],
        "members": [{"line": membership_line(one), "family": one.family,
                     "is_own": one.proposer_id == request.user.pk} for one in members[:MOST]],
    })
