"""Public units beside each other in one picture: mass and power, claim and capability, spreads."""
from urllib.parse import urlencode

import numpy as np
from django.shortcuts import render

from core.whole_number import whole_number
from teardowns.filters import list_query
from teardowns.presenting import list_words
from teardowns.presenting.population_kinds import KINDS
from teardowns.presenting.population_sheet import Asked, find_population, population_sheet
from teardowns.services.find_units import find_units
from teardowns.services.listed_numbers import listed_numbers, titles
from teardowns.views.narrowing import conditions, facets, wrong_choices
from teardowns.writing.render import visible

NO_KIND = "There is no picture “{}” of the units: this is the first one. The others stand above."
NO_NUMBER = ("“{}” is not the number of a unit, so none is marked: the number stands in the "
             "address of a unit’s page.")
SHOWN = 20               # characters of what was asked for


def population(request):
    query = list_query(request.META["QUERY_STRING"])
    kind = KINDS.get(request.GET.get("of", ""), next(iter(KINDS.values())))
    unit, page = (whole_number(request.GET.get(name, ""), 15) for name in ("unit", "page"))
    numbers = listed_numbers()
    answer = find_units(query.text, query.choices, size=1)
    found = answer.found
    asked = Asked(kind, numbers, _chosen(numbers, answer), numbers.place(unit), page or 1)
    drawn = find_population(asked)
    sheet = population_sheet(drawn, titles(drawn.pks))
    kept = {"of": kind.code} | ({"unit": unit} if asked.this is not None else {})
    return render(request, "teardowns/population.html", {
        "sheet": sheet, "unknown_unit": unit if unit and asked.this is None else None,
        "typed": query.typed, "wrong_words": query.errors.get("q", ""), "kept": kept,
        "wrong": wrong_choices(query),
        "remarks": [*_not_understood(request.GET, unit), *answer.remarks],
        "kinds": [(one, _address(kept | {"of": one.code}, query)) for one in KINDS.values()],
        "facets": facets(query, found.counts, answer.index),
        "narrowed": list_words.narrowed(
            (label, words, f"?{urlencode(kept)}&{rest.lstrip('?')}")
            for label, words, rest in conditions(query, answer.index)),
        "of_how_many": list_words.number_of(found.total), "all_of_kind": f"?{urlencode(kept)}",
        "earlier": sheet.page > 1 and _address(kept | {"page": sheet.page - 1}, query),
        "later": sheet.page < sheet.pages and _address(kept | {"page": sheet.page + 1}, query),
    })


def _not_understood(asked, unit):
    """What of the address is no picture and no unit."""
    kind, number = asked.get("of", ""), asked.get("unit", "")
    if kind and kind not in KINDS:
        yield NO_KIND.format(visible(kind)[:SHOWN])
    if number and unit is None:
        yield NO_NUMBER.format(visible(number)[:SHOWN])


def _chosen(numbers, answer):
    """Where all are, none was asked for by its number."""
    if answer.found.total == len(numbers.pks):
        return np.ones(len(numbers.pks), bool)
    return numbers.among(answer.pks)


def _address(first, query):
    """The same choice in another picture, or on another page of its table."""
    return f"?{urlencode(first)}&{query.query().lstrip('?')}".rstrip("&")
