"""Open appeals, the least time left first."""
from django.shortcuts import render
from django.utils import timezone

from teardowns.presenting.moderation_rows import appeal_rows
from teardowns.services.moderation_desk import SHOWN, open_appeals


def appeals(request):
    return render(request, "teardowns/appeals.html", {
        "rows": appeal_rows(open_appeals()[:SHOWN], timezone.now())})
