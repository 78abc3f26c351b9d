"""Parts and board families."""
from typing import Annotated

from django.urls import reverse
from ninja import Query

from teardowns import access
from teardowns.api.answers import Answer
from teardowns.api.operation import reads
from teardowns.api.paging import cursor_of, page_of, place_of
from teardowns.api.parameters import PAGED, USUAL, Cursor, Id, Size, Slug
from teardowns.api.payloads.library import family_row, limit_row, part_row
from teardowns.api.schemas import library as schemas
from teardowns.api.shown import NOBODY
from teardowns.api.texts import WITHOUT_NUL
from teardowns.models import BoardFamily, Part
from teardowns.services.part_uses import units_with_part
from teardowns.views.part_list import found_by_marking

TAG = "Parts and families"
MEMBERS = 100


@reads("/parts", "api_parts", TAG, schemas.PartPage, takes=("q", *PAGED))
def list_parts(request, q: Annotated[str, Query(max_length=80, pattern=WITHOUT_NUL, description=(
        "Part of a marking, spaces and hyphens aside."))] = "",
        cursor: Cursor = "", size: Size = USUAL):
    """The part library, by marking"""
    parts = Part.objects.listed().select_related("superseded_by").order_by("marking")
    if q.strip():
        parts = found_by_marking(parts, q.strip())
    if place := place_of(cursor, str):
        parts = parts.filter(marking__gt=place[0])
    shown, following, links = page_of(request, list(parts[:size + 1]), size,
                                      lambda part: cursor_of(part.marking))
    return Answer({"parts": [part_row(part) for part in shown], "next": following}, links=links)


@reads("/parts/{int:id}", "api_part", TAG, schemas.Part)
def read_part(request, id: Id):
    """One part: its limits with their sources, and the units that contain it"""
    part = access.part_to_see(NOBODY, id)
    uses = units_with_part(part)
    return part_row(part) | {
        "note": part.note, "version": part.version,
        "limits": [limit_row(each) for each in part.limits.order_by("quantity", "pk")],
        "units": [{"unit": each.pk, "title": each.version["title"],
                   "href": reverse("api_unit", args=[each.pk]),
                   "rows": [row["key"] for row in each.rows]}
                  for each in uses.units],
        "units_in_all": uses.number}


@reads("/families", "api_families", TAG, schemas.Families, takes=PAGED)
def list_families(request, cursor: Cursor = "", size: Size = USUAL):
    """Board families, by name"""
    families = BoardFamily.objects.order_by("name")
    if place := place_of(cursor, str):
        families = families.filter(name__gt=place[0])
    shown, following, links = page_of(request, list(families[:size + 1]), size,
                                      lambda family: cursor_of(family.name))
    return Answer({"families": [family_row(each) for each in shown], "next": following},
                  links=links)


@reads("/families/{slug}", "api_family", TAG, schemas.Family)
def read_family(request, slug: Slug):
    """One family: what speaks for one board and what against, and its public units"""
    family = access.family_to_see(slug)
    members = family.memberships.current().filter(
        unit__in=family.published_units()).select_related(
        "unit__publication").defer("unit__publication__document", "unit__publication__frozen")
    return family_row(family) | {
        "evidence_for": family.evidence_for, "evidence_against": family.evidence_against,
        "units": [{"unit": each.unit_id, "href": reverse("api_unit", args=[each.unit_id]),
                   "title": each.unit.publication.title, "why": each.why}
                  for each in members[:MEMBERS]]}
