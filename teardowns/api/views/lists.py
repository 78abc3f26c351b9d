"""Finding units: the list with its facets, the search, the facts of all."""
from typing import Annotated

from django.http import Http404
from django.utils.html import strip_tags
from ninja import Query

from teardowns.api.answers import Answer
from teardowns.api.operation import reads
from teardowns.api.paging import NO_PAGE, cursor_of, links_to, page_of, place_of
from teardowns.api.parameters import PAGED, USUAL, Cursor, Size
from teardowns.api.payloads.library import family_row, part_row
from teardowns.api.payloads.units import unit_row
from teardowns.api.schemas import facets as schemas
from teardowns.api.schemas.library import Found
from teardowns.api.schemas.units import UnitPage
from teardowns.api.texts import WITHOUT_NUL
from teardowns.models import BoardFamily, ListedUnit, Part
from teardowns.services.browse import browse
from teardowns.services.facets import FACETS, SORTS
from teardowns.services.page_state import list_state
from teardowns.services.search import search, snippets
from teardowns.services.search_suggestions import suggestions

TAG = "Units"
FACTS = ("verdict", "claimed_power", "measured_power", "load_held", "load_lost", "load_mains",
         "plausibility", "capability", "capability_low", "capability_high", "gap", "risk", "year",
         "reach", "completeness", "topology", "mass", "volume", "bulk_capacitance",
         "insulation_margin")
MOST_FACTS = 1000


@reads("/units", "api_units", TAG, UnitPage, takes=("sort", *PAGED, *FACETS),
       made_of=lambda **given: list_state())
def list_units(request, facets: Query[schemas.Facets], sort: Annotated[schemas.Sort, Query(
        description="Largest first; units without it come last.")] = "newest",
        cursor: Cursor = "", size: Size = USUAL):
    """Public units, narrowed by facets and sorted

    Choices of one facet widen, choices of several narrow. “counts” says what each other choice
    would find.
    """
    place = place_of(cursor, str)
    choices = {code: tuple(codes) for code, codes in facets.dict().items() if codes}
    try:
        found = browse(choices, sort=sort, after=place[0] if place else "", size=size)
    except (ValueError, OverflowError) as error:
        raise Http404(NO_PAGE) from error
    following = cursor_of(found.after) if found.after else ""
    return Answer({"total": found.total, "units": [unit_row(row) for row in _rows(found.pks)],
                   "next": following, "counts": found.counts}, links=links_to(request, following))


@reads("/facets", "api_facets", TAG, schemas.FacetList, ends=())
def list_facets(request):
    """The facets of the list: parameters, their codes and their words"""
    return {"facets": [{"code": facet.code, "label": facet.label, "values": [
        {"code": code, "label": label} for code, label in facet.values.items()]}
        for facet in FACETS.values()], "sorts": list(SORTS)}


@reads("/search", "api_search", TAG, Found, takes=("q", *PAGED))
def search_units(request, q: Annotated[str, Query(
        min_length=1, max_length=300, pattern=WITHOUT_NUL, description=(
        "Words, beginnings of words, parts of markings; misreadings are allowed for."),
        example="KX7731")], cursor: Cursor = "", size: Size = USUAL):
    """Units, parts and families by what is printed on them or written about them"""
    place = place_of(cursor, int)
    begin = place[0] if place else 0
    if begin < 0:
        raise Http404(NO_PAGE)
    hits = search(q)
    pks = hits.units[begin:begin + size]
    following = cursor_of(begin + size) if begin + size < len(hits.units) else ""
    words = snippets(pks, q)
    first = not begin
    return Answer({
        "query": q, "total": hits.total, "is_cut": hits.is_cut,
        "units": [unit_row(row) | {"snippet": strip_tags(words.get(row.unit_id, ""))}
                  for row in _rows(pks)],
        "parts": [part_row(each) for each in _ranked(
            Part.objects.listed().select_related("superseded_by"), hits.parts)] if first else [],
        "families": [family_row(each) for each in _ranked(BoardFamily.objects, hits.families)]
        if first else [],
        "suggestions": [each.text for each in suggestions(q)] if not hits.units else [],
        "next": following}, links=links_to(request, following))


@reads("/population", "api_population", TAG, schemas.Facts, takes=PAGED)
def read_population(request, cursor: Cursor = "", size: Annotated[int, Query(
        ge=1, le=MOST_FACTS, description="Units of a page.")] = MOST_FACTS):
    """Facts of all public units in columns, for statistics"""
    listed = ListedUnit.objects.listed()
    units = listed.order_by("unit_id")
    if place := place_of(cursor, int):
        units = units.filter(unit_id__gt=place[0])
    found = list(units.values_list("unit_id", *FACTS)[:size + 1])
    rows, following, links = page_of(request, found, size, lambda row: cursor_of(row[0]))
    columns = {name: [row[at] for row in rows] for at, name in enumerate(FACTS, start=1)}
    return Answer({"total": listed.count(), "unit": [row[0] for row in rows], "columns": columns,
                   "next": following}, links=links)


def _rows(pks):
    return _ranked(ListedUnit.objects.listed(), pks)


def _ranked(rows, pks):
    """The rows of these keys, in their order."""
    found = rows.in_bulk(pks)
    return [found[pk] for pk in pks if pk in found]
