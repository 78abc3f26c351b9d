"""Evidence of one's own open sheet: rows in the exchange form, sections as they are typed."""
from typing import Annotated, Any, Literal

from django.http import Http404, HttpResponse
from ninja import Body, Path

from teardowns.access import unit_to_change
from teardowns.api.answers import Answer
from teardowns.api.operation import reads, writes
from teardowns.api.parameters import UnitNumber
from teardowns.api.payloads.bench import unit_fields
from teardowns.api.pointers import BodyErrors, strangers
from teardowns.api.preconditions import stale, unmet
from teardowns.api.rows import model_of, row_change, stored_row, stored_rows
from teardowns.api.schemas import bench as schemas
from teardowns.api.sections import errors_of, is_stale, section_payload, texts_of, typed_form
from teardowns.exchange.rules import EVIDENCE_LISTS
from teardowns.forms.sections import BY_SLUG
from teardowns.forms.unit_form import LABELS, UnitForm
from teardowns.services.export_unit import unit_document
from teardowns.services.save_section import RowChange, StaleRows, save_section

TAG = "Bench"
LOCKED = (404, 409, 412, 428)
EXAMPLE = {"quantity": "mass_total", "value": 0.061, "how": "measured"}
List = Annotated[Literal[EVIDENCE_LISTS], Path(..., description="List of the document.",
                                               example="measurements")]
RowKey = Annotated[str, Path(..., max_length=64, pattern=r"^[a-z0-9-]+$", example="mass",
                             description="Key of the row within the unit.")]
Slug = Annotated[Literal[tuple(BY_SLUG)], Path(..., description="Slug of the section.",
                                               example="outside")]
RowSaid = Annotated[dict[str, Any], Body(..., max_length=60, example=EXAMPLE,
                                         description="The row, as UnitDocument has it.")]
NO_ROW = "There is no such row on this sheet."


@reads("/bench/{int:unit}/fields", "api_bench_fields", TAG, schemas.UnitFields, private=True)
def read_fields(request, unit: UnitNumber):
    """Fields of the unit itself, with the ETag that a change of them needs"""
    return unit_fields(unit_to_change(request.user, unit))


@writes("patch", "/bench/{int:unit}/fields", "api_bench_fields", TAG, schemas.UnitFields,
        ends=LOCKED)
def change_fields(request, unit: UnitNumber, said: schemas.UnitChange):
    """Change fields of the unit, as they are typed on its sheet (If-Match)"""
    own = unit_to_change(request.user, unit)
    current = unit_fields(own)
    if strange := strangers(said.fields, LABELS, "fields"):
        raise BodyErrors(strange)
    if refused := unmet(request, current, said.fields):
        return refused
    form = UnitForm(_typed(own, said), names=list(LABELS), unit=own)
    if not form.is_valid():
        raise BodyErrors([
            {"detail": words, "pointer": "/fields" if name == "__all__" else f"/fields/{name}"}
            for name, listed in form.errors.items() for words in listed])
    return _saved(request, own, "fields of the unit", [], form.change(), said.fields) \
        or unit_fields(unit_to_change(request.user, unit))


def _typed(own, said):
    texts = texts_of(UnitForm(names=list(LABELS), unit=own)) | said.fields
    return {f"unit-{name}": text for name, text in texts.items()}


@reads("/bench/{int:unit}/evidence/{list}", "api_bench_rows", TAG, schemas.Rows, private=True)
def list_rows(request, unit: UnitNumber, list: List):
    """The rows of one list, in the exchange form"""
    own = unit_to_change(request.user, unit)
    return {"rows": [payload for _, payload in stored_rows(own, list)]}


@reads("/bench/{int:unit}/evidence/{list}/{key}", "api_bench_row", TAG, schemas.Row, private=True)
def read_row(request, unit: UnitNumber, list: List, key: RowKey):
    """One row, with the ETag that a change of it needs"""
    own = unit_to_change(request.user, unit)
    _, payload = stored_row(own, list, key)
    if payload is None:
        raise Http404(NO_ROW)
    return payload


@writes("put", "/bench/{int:unit}/evidence/{list}/{key}", "api_bench_row", TAG, schemas.Row,
        ends=LOCKED)
def put_row(request, unit: UnitNumber, list: List, key: RowKey, row: RowSaid):
    """Write a row: a new one under its key, or a whole stored one anew (If-Match)

    Keys that are left out are at their default, or not known.
    """
    own = unit_to_change(request.user, unit)
    return _written(request, own, list, key, row, *stored_row(own, list, key))


@writes("patch", "/bench/{int:unit}/evidence/{list}/{key}", "api_bench_row", TAG, schemas.Row,
        ends=LOCKED)
def patch_row(request, unit: UnitNumber, list: List, key: RowKey, row: RowSaid):
    """Change some keys of a stored row; null takes a key away (JSON Merge Patch, RFC 7396)"""
    own = unit_to_change(request.user, unit)
    stored, current = stored_row(own, list, key)
    if current is None:
        raise Http404(NO_ROW)
    merged = {name: value for name, value in (current["row"] | row).items() if value is not None}
    return _written(request, own, list, key, merged, stored, current)


@writes("delete", "/bench/{int:unit}/evidence/{list}/{key}", "api_bench_row", TAG, schemas.Saved,
        ends=LOCKED)
def remove_row(request, unit: UnitNumber, list: List, key: RowKey):
    """Take a row away (If-Match); its history stays"""
    own = unit_to_change(request.user, unit)
    stored, current = stored_row(own, list, key)
    if current is None:
        raise Http404(NO_ROW)
    if refused := unmet(request, current, None):
        return refused
    change = RowChange(model_of(list), key, stored.version, None)
    saved = save_section(request.user, unit, list, [change])
    return {"changed": saved.changed, "assessed": saved.assessed, "section": list}


def _written(request, own, list_name, key, said, stored, current):
    if refused := unmet(request, current, said):
        return refused
    change = row_change(own, unit_document(own), list_name, key, said,
                        stored.version if stored else 0, request.user)
    if refused := _saved(request, own, list_name, [change], None, said):
        return refused
    return stored_row(own, list_name, key)[1]


def _saved(request, own, section, rows, unit_change, yours) -> HttpResponse | None:
    """None once it is stored; 412 with both texts where somebody was faster by a moment."""
    try:
        save_section(request.user, own.pk, section, rows, unit_change)
    except StaleRows:
        now = unit_to_change(request.user, own.pk)
        if not rows:
            return stale(unit_fields(now), yours)
        _, current = stored_row(now, section, rows[0].key)
        return stale(current, yours)
    return None


@reads("/bench/{int:unit}/sections/{slug}", "api_bench_section", TAG, schemas.Section,
       private=True)
def read_section(request, unit: UnitNumber, slug: Slug):
    """A section of the sheet as its page shows it: texts with their units"""
    return section_payload(BY_SLUG[slug], unit_to_change(request.user, unit))


@writes("put", "/bench/{int:unit}/sections/{slug}", "api_bench_section", TAG, schemas.Saved,
        ends=(404, 409, 412))
def type_section(request, unit: UnitNumber, slug: Slug, said: schemas.SectionTyped):
    """Save a section as it would be typed: “6.8 µF ±20 %”, “100-240 V”

    Each row is locked by the “version” that it was read with; If-Match, where it is sent, locks
    the whole section.
    """
    own, section = unit_to_change(request.user, unit), BY_SLUG[slug]
    if "If-Match" in request.headers:
        refused = unmet(request, section_payload(section, own), said.model_dump())
        if refused:
            return refused
    form = typed_form(section, own, said)
    if not form.is_valid():
        if is_stale(form):
            return stale(section_payload(section, own), said.model_dump())
        raise BodyErrors(errors_of(form))
    confirmed = ["discharge_confirmed"] if said.discharged else []
    try:
        saved = save_section(request.user, unit, slug, form.row_changes(), form.unit_change(),
                             confirmed)
    except StaleRows:
        return stale(section_payload(section, unit_to_change(request.user, unit)),
                     said.model_dump())
    return Answer({"changed": saved.changed, "assessed": saved.assessed, "section": slug})
