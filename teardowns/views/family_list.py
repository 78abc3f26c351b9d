"""Board families by name, with how many published units each has."""
from django.core.paginator import Paginator
from django.db.models import Count, Q
from django.shortcuts import render

from teardowns import access
from teardowns.models import BoardFamily, ProposalState, Status
from teardowns.presenting.family_sheet import APART

PAGE_SIZE = 50
PUBLIC = Q(memberships__state=ProposalState.ACCEPTED, memberships__unit__status=Status.PUBLISHED,
           memberships__unit__quarantined_at=None)


def family_list(request):
    families = BoardFamily.objects.annotate(units=Count("memberships", filter=PUBLIC))
    page = Paginator(families.order_by("name"), PAGE_SIZE).get_page(request.GET.get("page"))
    return render(request, "teardowns/family_list.html", {
        "page": page, "families": page.object_list, "apart": APART,
        "may_open": access.may_moderate(request.user),
    })
