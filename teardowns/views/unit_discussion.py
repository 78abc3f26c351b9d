"""What is said about a unit or one row of its evidence."""
from django.http import Http404
from django.urls import reverse

from core.buckets import limited
from core.once import once
from core.sent_forms import takes_sent_form
from teardowns import access
from teardowns.presenting.discussion_thread import evidence_refs

from .discussion_page import ACCOUNT, NETWORK, discussion_page


@limited("comments", account=ACCOUNT, network=NETWORK)
@once
@takes_sent_form
def unit_discussion(request, pk):
    unit = access.unit_to_see(request.user, pk)
    names = evidence_refs(unit)
    about = request.GET.get("about", "")
    if about and about not in names:
        raise Http404("There is no such row of evidence.")
    back = (reverse("unit_detail", args=[pk]), unit.title)
    return discussion_page(request, unit, back, names, about)
