"""Rows of evidence in the exchange form → what the bench's own service saves."""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.http import Http404

from teardowns.api.pointers import BodyErrors, pointer
from teardowns.exchange.document import DocumentError
from teardowns.exchange.rules import EVIDENCE_LISTS, IDENTITY, broken_rules
from teardowns.exchange.schema import problems, row_schema
from teardowns.exchange.shape import full
from teardowns.models import Part, Photo, Recording, Unit
from teardowns.services.cite_part import PartCitation
from teardowns.services.export_unit import MODELS, foreign_column
from teardowns.services.save_section import RowChange

NOT_WRITTEN = ("key", "review_state")          # the address says the key, reviewers the state
OF_FILE = {"photo": Photo, "recording": Recording}
NO_LIST = "There is no such list of evidence: the lists are " + ", ".join(EVIDENCE_LISTS) + "."
NO_PART = ("The library has no part “{}” that you see: propose it there, or write it on the "
           "section’s page with its published values.")
OTHER_KEY = "The address says “{}”: write the same key, or leave it out."


def model_of(list_name: str) -> Any:
    """Raises Http404."""
    if list_name not in EVIDENCE_LISTS:
        raise Http404(NO_LIST)
    return MODELS[list_name]


def row_payload(list_name: str, row: Any, plain: Mapping[str, Any]) -> dict[str, Any]:
    """row : of the database; plain : the same as the document has it"""
    return {"list": list_name, "ref": row.ref, "version": row.version, "row": plain}


def stored_rows(unit: Unit, list_name: str, **wanted: Any) -> list[tuple[Any, dict[str, Any]]]:
    """Each row of the database with its payload: one query. Raises Http404 for no such list."""
    model, cited = model_of(list_name), _cited(list_name)
    rows = model.objects.filter(unit=unit, **wanted).select_related(*cited).order_by("pk")
    return [(row, row_payload(list_name, row, _plain(row, list_name, cited))) for row in rows]


def stored_row(unit: Unit, list_name: str, key: str) -> tuple[Any, dict[str, Any] | None]:
    """(row of the database or None, its payload or None)"""
    found = stored_rows(unit, list_name, key=key)
    return found[0] if found else (None, None)


def _cited(list_name):
    """Fields that name a row of another list, with the field of that row which is its name."""
    targets = {name: foreign_column(list_name, name)
               for name in row_schema(list_name)["properties"]}
    return {name: IDENTITY[target] for name, target in targets.items() if target}


def _plain(row, list_name, cited):
    """The row as the document has it."""
    made = {}
    for name in row_schema(list_name)["properties"]:
        value = getattr(row, name)
        if value is not None:
            made[name] = getattr(value, cited[name]) if name in cited else value
    return full(made, row_schema(list_name))


def row_change(unit: Unit, document: Mapping[str, Any], list_name: str, key: str,
               said: Mapping[str, Any], version: int, person: Any) -> RowChange:
    """The change that makes the row what was said. Raises BodyErrors, DocumentError.

    document : full, as it stands now; version : of the stored row, 0 for a new one
    """
    if said.get("key", key) != key:
        raise BodyErrors([{"detail": OTHER_KEY.format(key), "pointer": "/key"}])
    schema = row_schema(list_name)
    plain = dict(said) | {"key": key}
    if found := list(problems(plain, schema)):
        raise DocumentError(found)
    plain = full(plain, schema)
    plain.pop("review_state", None)
    parts = _part(plain.get("part"), person, unit)
    _check_together(document, list_name, plain, parts)
    return RowChange(model_of(list_name), key, version, _values(unit, list_name, plain))


def _check_together(document, list_name, plain, parts):
    """What the row breaks in the document that was not broken before."""
    rows = [dict(row) for row in document[list_name]]
    index = next((i for i, row in enumerate(rows) if row["key"] == plain["key"]), len(rows))
    rows[index:index + 1] = [{"review_state": "open"} | plain]
    changed = {**document, list_name: rows, "parts": [*document["parts"], *parts]}
    before = set(broken_rules(document))
    place = f"{list_name}[{index}]"
    if found := [each for each in broken_rules(changed)
                 if each not in before and not each.startswith("parts[")]:
        raise BodyErrors([_placed(each, place) for each in found])


def _placed(said, place):
    """A fault of the row itself by its field; one of another row in words alone."""
    path, _, words = said.partition(": ")
    if not path.startswith(place):
        return {"detail": said, "pointer": ""}
    return {"detail": words, "pointer": pointer(*filter(None, path[len(place):].split(".")))}


def _part(marking, person, unit):
    if marking is None:
        return []
    seen = Part.objects.visible_to(person) | Part.objects.filter(components__unit=unit)
    if not seen.filter(marking=marking).exists():
        raise BodyErrors([{"detail": NO_PART.format(marking), "pointer": "/part"}])
    return [{"marking": marking, "limits": []}]


def _values(unit, list_name, plain):
    """Every column that the form has, so that a whole row replaces what stood there."""
    model, values = MODELS[list_name], {}
    for name in row_schema(list_name)["properties"]:
        if name in NOT_WRITTEN:
            continue
        value = plain.get(name)
        if name in OF_FILE and value is not None:
            value = OF_FILE[name].objects.filter(unit=unit, key=value).first()
        elif name == "part" and value is not None:
            value = PartCitation(value, "")
        values[name] = value if value is not None else _nothing(model, name)
    return values


def _nothing(model, name):
    """What a column holds where the fact is not known."""
    field = model._meta.get_field(name)
    return None if field.null or field.is_relation else field.get_default()
