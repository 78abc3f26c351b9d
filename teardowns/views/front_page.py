"""The front page: what this is, a search, the newest verdicts, how to read one."""
from django.shortcuts import render
from django.utils.safestring import mark_safe

from teardowns.figures.strip import strip_axis
from teardowns.filters import NEWEST
from teardowns.models import Unit
from teardowns.presenting.unit_rows import unit_rows, with_newest_assessment
from teardowns.presenting.verdict_words import VERDICT_WORDS

NEWEST_SHOWN = 10


def front_page(request):
    units = with_newest_assessment(Unit.objects.published()).order_by(*NEWEST)
    return render(request, "teardowns/front_page.html", {
        "rows": unit_rows(units[:NEWEST_SHOWN]),
        "axis": mark_safe(strip_axis()),
        "verdict_words": VERDICT_WORDS,
    })
