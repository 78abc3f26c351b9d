"""What waits for a review, in order and with the reasons for it."""
from django.core.paginator import Paginator
from django.shortcuts import render

from teardowns.presenting.review_queue_rows import queue_row
from teardowns.services.review_queue import review_queue as queue_of

PAGE_SIZE = 25


def review_queue(request):
    queue = queue_of(request.user)
    page = Paginator(queue.offered, PAGE_SIZE).get_page(request.GET.get("page"))
    return render(request, "teardowns/review_queue.html", {
        "held": [queue_row(entry) for entry in queue.held],
        "rows": [queue_row(entry) for entry in page.object_list], "page": page,
        "refused": [queue_row(entry) for entry in queue.refused[:PAGE_SIZE]],
        "more_refused": max(len(queue.refused) - PAGE_SIZE, 0), "decided": queue.decided,
        "earlier": page.has_previous() and f"?page={page.number - 1}",
        "later": page.has_next() and f"?page={page.number + 1}",
    })
