"""Which public units' verdict words or levels a rulebook moved, the newest rulebook first."""
from django.core.paginator import Paginator
from django.shortcuts import render

from teardowns.models import StandingChange, Status
from teardowns.presenting.record_foot import rulebook_text
from teardowns.presenting.rulebook_moves import rulebook_moves
from teardowns.services.active_rulebook import active_rulebook

PAGE_SIZE = 50


def rulebook_changes(request):
    changes = StandingChange.objects.filter(
        publication__unit__status=Status.PUBLISHED, publication__unit__quarantined_at=None)
    changes = changes.select_related("publication__unit", "was", "now").defer(
        "publication__document", "publication__frozen", "publication__words", "was__payload",
        "now__payload")
    page = Paginator(changes, PAGE_SIZE).get_page(request.GET.get("page"))
    return render(request, "teardowns/rulebook_changes.html", {
        "rulebooks": rulebook_moves(list(page.object_list)), "page": page,
        "in_force": rulebook_text(active_rulebook().version),
        "earlier": page.has_previous() and f"?page={page.number - 1}",
        "later": page.has_next() and f"?page={page.number + 1}"})
