"""What moderation did in the last year, in numbers for everybody."""
from datetime import timedelta

from django.shortcuts import render
from django.utils import timezone

from teardowns.presenting.moderation_times import span
from teardowns.services.moderation_counts import moderation_counts

YEAR = timedelta(days=365)
NONE_DECIDED = "none decided"


def moderation_numbers(request):
    now = timezone.now()
    return render(request, "teardowns/moderation_numbers.html",
                  _told(moderation_counts(now - YEAR, now)))


def _told(counts):
    hours = counts.median_hours
    return {"decisions": counts.decisions, "facts": (
        ("Reports received", counts.reports), ("Reports upheld", counts.upheld),
        ("Reports in which nothing broke a rule", counts.dismissed),
        ("Reports still open", counts.open),
        ("Half of the decided reports were decided within",
         NONE_DECIDED if hours is None else span(timedelta(hours=hours))),
        ("Decisions by the stated rule, without a person", counts.automated),
        ("Appeals opened", counts.appeals), ("Decisions reversed on appeal", counts.reversed),
        ("Names of reporters looked up, each with a reason", counts.names_looked_up),
        ("Originals of photos and logs taken out, each with a reason",
         counts.originals_taken_out))}
