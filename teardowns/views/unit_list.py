"""The list of public units: searched, narrowed and sorted by its address, 25 to a page."""
from dataclasses import replace
from urllib.parse import urlencode

from django.conf import settings
from django.shortcuts import render
from django.urls import reverse
from django.utils.safestring import mark_safe

from core.process_limits import asked_seldom
from teardowns.browsing.orders import BadPlace
from teardowns.engine.safety_words import DEFERRAL
from teardowns.figures.strip import strip_axis
from teardowns.filters import list_query
from teardowns.presenting import list_words
from teardowns.presenting.search_also import also_found
from teardowns.presenting.unit_rows import RISK_NOTE, unit_rows
from teardowns.services.find_units import find_units
from teardowns.services.near_names import near_names
from teardowns.services.page_state import list_state
from teardowns.services.search import snippets
from teardowns.services.search_suggestions import suggestions
from teardowns.views.kept_pages import kept_page
from teardowns.views.narrowing import conditions, facets, wrong_choices

PAGE_SIZE = 25
AXIS = mark_safe(strip_axis())
LOST = "The page that this address names is no place in the list: this is its first page."


@kept_page(lambda request: None if request.GET.get("q") else list_state())
@asked_seldom("search", lambda: settings.SEARCHES, counts=lambda request: "q" in request.GET)
def unit_list(request):
    asked, answer, remarks = _page(list_query(request.META["QUERY_STRING"]),
                                   request.made_of and request.made_of.mark)
    found = answer.found
    nothing = answer.hits is not None and not answer.hits.units
    meant = _meant(asked) if nothing else []
    return render(request, "teardowns/unit_list.html", {
        "typed": asked.typed, "wrong_words": asked.errors.get("q", ""),
        "wrong": [*wrong_choices(asked), *_wrong_order(asked)],
        "remarks": [*remarks, *answer.remarks],
        "facets": facets(asked, found.counts, answer.index),
        "orders": list_words.options(asked.orders, asked.sort or asked.usual_sort),
        "found": list_words.number_of(found.total),
        "span": list_words.span(found.first, len(found.pks), found.total),
        "narrowed": list_words.narrowed(conditions(asked, answer.index)),
        "rows": unit_rows(found.pks, answer.index,
                          snippets(found.pks, asked.text) if asked.text else None),
        "also": answer.hits and also_found(answer.hits.parts, answer.hits.families),
        "suggestions": meant, "has_no_name": nothing and not meant,
        "near": _near(asked) if nothing and not meant else (),
        "axis": AXIS, "risk_note": RISK_NOTE, "deferral": DEFERRAL,
        "query": asked.query(),
        "earlier": found.before and asked.query(found.before),
        "later": found.after and asked.query(found.after),
        "sign_in": asked.conditions and _sign_in(request),
    })


def _page(asked, mark):
    """What was asked, its answer, and a remark where the place in the list was none."""
    lost = [LOST] if "after" in asked.errors else []
    try:
        return asked, find_units(asked.text, asked.choices, sort=asked.sort, after=asked.after,
                                 size=PAGE_SIZE, mark=mark), lost
    except BadPlace:
        asked = replace(asked, after="")
        return asked, find_units(asked.text, asked.choices, sort=asked.sort, size=PAGE_SIZE), [LOST]


def _wrong_order(asked):
    return [f"Sort by: {asked.errors['sort']}"] if "sort" in asked.errors else []


def _meant(asked):
    """Other words with the same choices."""
    return [(one.text, replace(asked, text=one.text, after="").query())
            for one in suggestions(asked.text)]


def _near(asked):
    """Public names with the same choices: where no other spelling of all words has anything."""
    return [(one.what, one.name, replace(asked, text=one.name, after="").query())
            for one in near_names(asked.text)]


def _sign_in(request):
    """And back."""
    return f"{reverse('sign_in')}?{urlencode({'next': request.get_full_path()})}"
