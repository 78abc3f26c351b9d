"""The reading of a printed text, as a fragment that stands beside the text."""
from django.shortcuts import render

from teardowns.access import unit_to_change
from teardowns.forms.evidence_form import MOST_TEXT
from teardowns.forms.plate_reading import shown_reading


def bench_plate_reading(request, pk):
    unit_to_change(request.user, pk)
    text = request.POST.get("text", "")[:MOST_TEXT].replace("\r\n", "\n")
    return render(request, "teardowns/_bench_plate_reading.html", {"reading": shown_reading(text)})
