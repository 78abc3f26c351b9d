"""The front page: what this is, a search, the newest verdicts, how to read one."""
from django.shortcuts import render
from django.utils.safestring import mark_safe

from teardowns.figures.strip import strip_axis
from teardowns.filters import NEWEST
from teardowns.presenting.unit_rows import published_rows, unit_rows
from teardowns.presenting.verdict_words import VERDICT_WORDS

NEWEST_SHOWN = 10


def front_page(request):
    units = published_rows().order_by(*NEWEST)
    return render(request, "teardowns/front_page.html", {
        "rows": unit_rows(units[:NEWEST_SHOWN]),
        "axis": mark_safe(strip_axis()),
        "verdict_words": VERDICT_WORDS,
    })
