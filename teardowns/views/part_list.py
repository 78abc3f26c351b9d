"""The part library: searched by marking, 50 to a page."""
from urllib.parse import urlencode

from django.conf import settings
from django.core.paginator import Paginator
from django.db.models import BooleanField, ExpressionWrapper, Q, Value
from django.db.models.functions import Replace, Upper
from django.shortcuts import render

from core.process_limits import asked_seldom
from teardowns.models import Part
from teardowns.reading.markings_alike import APART, alike
from teardowns.services.part_uses import numbers_of_units
from teardowns.services.search import search

PAGE_SIZE = 50
LONGEST = 80


@asked_seldom("search", lambda: settings.SEARCHES, counts=lambda request: "q" in request.GET)
def part_list(request):
    asked = request.GET.get("q", "").replace("\0", "")[:LONGEST].strip()
    parts = Part.objects.listed().select_related("superseded_by").order_by("marking")
    if asked:
        parts = found_by_marking(parts, asked)
    page = Paginator(parts, PAGE_SIZE).get_page(request.GET.get("page"))
    shown = list(page.object_list)
    numbers = numbers_of_units(shown)
    return render(request, "teardowns/part_list.html", {
        "asked": asked, "query": f"{urlencode({'q': asked})}&" if asked else "",
        "page": page, "count": page.paginator.count,
        "rows": [{"part": part, "units": numbers[part.pk]} for part in shown],
        "near": _read_alike(asked) if asked and not shown else (),
    })


def found_by_marking(parts, asked):
    """Parts whose marking contains what was asked for, spaces, hyphens and case aside; first those
    that begin with it."""
    plain = Upper("marking")
    for mark in APART:
        plain = Replace(plain, Value(mark), Value(""))
    begins = ExpressionWrapper(Q(plain__startswith=alike(asked)), output_field=BooleanField())
    return parts.annotate(plain=plain).filter(plain__contains=alike(asked)).annotate(
        begins=begins).order_by("-begins", "marking")


def _read_alike(asked):
    """Parts that the search finds where no marking is spelt so: letters misread, other words."""
    found = search(asked).parts
    parts = Part.objects.listed().in_bulk(found)
    return [parts[pk] for pk in found if pk in parts]
