"""For whoever made or sold a unit: find its record, and what can be answered, how and where."""
from urllib.parse import urlencode

from django.conf import settings
from django.shortcuts import render
from django.urls import reverse

from core.process_limits import asked_seldom
from teardowns.models import ListedUnit
from teardowns.presenting.list_words import number_of
from teardowns.services.near_names import near_names
from teardowns.services.search import search

LONGEST = 100
SHOWN = 25
ELSEWHERE = {"part": "part_list", "board family": "unit_list"}


@asked_seldom("search", lambda: settings.SEARCHES, counts=lambda request: "q" in request.GET)
def for_makers(request):
    typed = " ".join(request.GET.get("q", "")[:LONGEST].split())
    return render(request, "teardowns/for_makers.html", {
        "typed": typed, **(_found(typed) if typed else {})})


def _found(typed):
    hits = search(typed, limit=SHOWN)
    known = ListedUnit.objects.listed().in_bulk(hits.units)
    units = [known[pk] for pk in hits.units if pk in known]
    return {"units": units, "remark": hits.remark, "found": number_of(len(units)),
            "most": SHOWN if hits.is_cut else 0, "is_asked": True,
            "near": [(one.what, one.name, _address(one)) for one in near_names(typed)]
            if not units else ()}


def _address(near):
    """Where something of this name is: parts and board families are no records to answer."""
    page = reverse(ELSEWHERE[near.what]) if near.what in ELSEWHERE else ""
    return f"{page}?{urlencode({'q': near.name})}"
