"""Open reports, the most harmful first and then the least time left."""
from django.core.paginator import Paginator
from django.shortcuts import render
from django.utils import timezone

from teardowns.presenting.moderation_rows import report_rows
from teardowns.services.moderation_desk import open_reports

PAGE_SIZE = 50


def reports(request):
    page = Paginator(open_reports(request.user), PAGE_SIZE).get_page(request.GET.get("page"))
    return render(request, "teardowns/reports.html", {
        "rows": report_rows(page.object_list, timezone.now()), "page": page})
