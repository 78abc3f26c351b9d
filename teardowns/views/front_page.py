"""The front page: what this is, a search, the newest verdicts, how to read one."""
from django.shortcuts import render
from django.utils.safestring import mark_safe

from teardowns.figures.strip import strip_axis
from teardowns.presenting.list_words import number_of
from teardowns.presenting.unit_rows import RISK_NOTE, unit_rows
from teardowns.presenting.verdict_words import VERDICT_WORDS
from teardowns.services.find_units import find_units

NEWEST_SHOWN = 10
AXIS = mark_safe(strip_axis())


def front_page(request):
    answer = find_units("", {}, size=NEWEST_SHOWN)
    return render(request, "teardowns/front_page.html", {
        "rows": unit_rows(answer.found.pks, answer.index),
        "number": number_of(answer.found.total),
        "axis": AXIS, "risk_note": RISK_NOTE, "verdict_words": VERDICT_WORDS,
    })
