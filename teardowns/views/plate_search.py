"""Find public units by what is printed on a charger: the text is read, near plates are shown."""
from urllib.parse import urlencode

from django.conf import settings
from django.shortcuts import render

from core.process_limits import asked_seldom
from teardowns.forms.plate_reading import shown_reading
from teardowns.forms.plate_search_form import PlateSearchForm
from teardowns.models import Unit
from teardowns.presenting.near_rows import near_rows
from teardowns.searching.misread_numbers import corrected_numbers
from teardowns.services.near_units import near_units

MOST_COMPARED = 3


def is_asked(request):
    return bool(request.GET.keys() & {"text", "marking"})


@asked_seldom("search", lambda: settings.SEARCHES, counts=is_asked)
def plate_search(request):
    form = PlateSearchForm(request.GET if is_asked(request) else None)
    found = _found(**form.cleaned_data) if form.is_valid() else {}
    return render(request, "teardowns/plate_search.html", {"form": form, **found})


def _found(text, marking):
    text = text.replace("\r\n", "\n")
    shown = shown_reading(text)
    near = near_units(text, shown and shown.reading, marking)
    rows = near_rows(near, Unit.objects.published().filter(pk__in=[one.pk for one in near]))
    corrected = corrected_numbers(text)
    return {
        "is_asked": True, "reading": shown, "rows": rows,
        "corrected": corrected if corrected != text else "",
        "corrected_address": f"?{urlencode({'text': corrected, 'marking': marking})}",
        "compared": ",".join(str(row.unit.pk) for row in rows[:MOST_COMPARED]),
        "most_compared": min(MOST_COMPARED, len(rows)),
    }
