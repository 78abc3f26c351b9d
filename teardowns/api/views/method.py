"""How numbers are made, and what was done: rules, nomenclature, terms, the log."""
from typing import Annotated

from django.http import Http404
from django.urls import reverse
from ninja import Query

from core.audit.actions import PUBLIC
from core.audit.models import Entry
from teardowns import licence
from teardowns.api.answers import Answer
from teardowns.api.operation import TITLE, VERSION, reads
from teardowns.api.paging import LARGEST, cursor_of, page_of, place_of
from teardowns.api.parameters import PAGED, USUAL, Cursor, Size, Word
from teardowns.api.payloads.library import log_row, quantity_row, rule_row, rule_sheet
from teardowns.api.schemas import library as schemas
from teardowns.engine.quantities import QUANTITIES
from teardowns.services.active_rulebook import active_rulebook

TAG = "Method and log"
BEGIN = ("units", "search", "parts", "families", "population", "method", "quantities", "log",
         "licence")


@reads("", "api_index", "Begin here", schemas.Index, ends=())
def read_index(request):
    """Where to begin"""
    links = {name: reverse(f"api_{name}") for name in BEGIN}
    return Answer({"title": TITLE, "version": VERSION, "links": links}, links={
        "service-desc": reverse("api_openapi"), "service-doc": reverse("api_documentation")})


@reads("/method", "api_method", TAG, schemas.Method, ends=())
def read_method(request):
    """The rulebook in force: every rule by name"""
    book = active_rulebook()
    return {"version": book.version, "edition": book.edition,
            "rules": [rule_row(rule) for rule in sorted(book.lines + book.checks + book.safety,
                                                        key=lambda each: each.id)]}


@reads("/method/rules/{group}/{rule}", "api_rule", TAG, schemas.Rule)
def read_rule(request, group: Word, rule: Word):
    """One rule: its formula, its source, when it holds"""
    try:
        return rule_sheet(active_rulebook()[f"{group}/{rule}"])
    except KeyError:
        raise Http404("The rulebook has no such rule.") from None


@reads("/quantities", "api_quantities", TAG, schemas.Quantities, ends=())
def read_quantities(request):
    """The nomenclature: every quantity by its code, with its unit and meaning"""
    return {"quantities": [quantity_row(QUANTITIES[code]) for code in sorted(QUANTITIES)]}


@reads("/licence", "api_licence", TAG, schemas.LicenceTerms, ends=())
def read_licence(request):
    """The terms in force under which contributions are handed in and handed out"""
    terms = licence.IN_FORCE
    return {"edition": terms.number, "since": terms.since, "text": terms.text,
            "sha256": terms.sha256, "measurements": licence.MEASUREMENTS, "works": licence.WORKS}


@reads("/log", "api_log", TAG, schemas.LogPage, takes=("unit", "action", *PAGED))
def read_log(request, unit: Annotated[int | None, Query(
        ge=1, le=LARGEST, description="Number of a unit.")] = None,
        action: Annotated[str, Query(max_length=40, pattern="^[a-z_]*$", description=(
            "Code of an action."))] = "",
        cursor: Cursor = "", size: Size = USUAL):
    """The public part of the log: who did what in which role, the newest first"""
    entries = Entry.objects.public()
    if unit is not None:
        entries = entries.of_unit(unit)
    if action:
        entries = entries.filter(action=action) if action in PUBLIC else entries.none()
    if place := place_of(cursor, int):
        entries = entries.filter(sequence__lt=place[0])
    shown, following, links = page_of(request, list(entries[:size + 1]), size,
                                      lambda entry: cursor_of(entry.sequence))
    return Answer({"entries": [log_row(entry) for entry in shown], "next": following},
                  links=links)
