"""From a unit document to rows: the unit with all its evidence, or nothing."""
from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django.db import transaction
from simple_history.utils import bulk_create_with_history

from core.accounts.models import Role, User
from teardowns.exchange.document import DocumentError, read_document
from teardowns.models import Part, PartLimit, ReviewState, Status, Unit

from .export_unit import MODELS, foreign_column

# Photos and recordings first, then what rows of evidence cite, then the rest.
ORDER = ("photos", "recordings", "printed_texts", "ports", "components", "claims", "stack",
         "insulation", "measurements")


@transaction.atomic
def import_unit(
    document: Mapping[str, Any], contributor: User, status: str = Status.DRAFT
) -> Unit:
    """A new unit from a document; `DocumentError` says what stands in the way.

    The stage is the caller's decision, whatever the document says of itself; only a version makes
    a unit public. A draft has not been reviewed here, so its rows arrive unreviewed.
    """
    document = read_document(document)
    unit = _unit(document["unit"], contributor, status)
    known: dict[str, dict[str, int]] = {"parts": _parts(document["parts"], contributor)}
    for name in ORDER:
        rows = [_row(name, row, unit, contributor, known) for row in document[name]]
        made = bulk_create_with_history(rows, MODELS[name], default_user=contributor)
        known[name] = {row.key: row.pk for row in made}
    return unit


def _unit(fields, contributor, status):
    fields = {name: value for name, value in fields.items() if name != "status"}
    if "uid" in fields and Unit.objects.filter(uid=fields["uid"]).exists():
        raise DocumentError([
            f"unit.uid: the unit {fields['uid']} is in the database already; remove uid to import "
            "a copy of it"
        ])
    if "price" in fields:
        fields["price"] = Decimal(repr(fields["price"]))
    if "obtained_on" in fields:
        fields["obtained_on"] = date.fromisoformat(fields["obtained_on"])
    unit = Unit(contributor=contributor, status=status, **fields)
    return _saved(unit, contributor)


def _row(name, fields, unit, contributor, known):
    made = {}
    for field, value in fields.items():
        target = foreign_column(name, field)
        made[f"{field}_id" if target else field] = known[target][value] if target else value
    if unit.status == Status.DRAFT and "review_state" in made:
        made["review_state"] = ReviewState.OPEN
    return MODELS[name](unit=unit, author=contributor, **made)


def _parts(parts, curator):
    """Primary keys by marking. The library's entries stay as they are, except for a moderator."""
    markings = [part["marking"] for part in parts]
    library = {part.marking: part for part in
               Part.objects.filter(marking__in=markings).prefetch_related("limits")}
    problems, limits = [], []
    for index, wanted in enumerate(parts):
        part = library.get(wanted["marking"])
        if part is None:
            part = library[wanted["marking"]] = _new_part(wanted, curator)
            missing = wanted["limits"]
        else:
            missing, found = _compared(wanted["limits"], part, f"parts[{index}]", curator)
            problems += found
        limits += [PartLimit(part=part, **limit) for limit in missing]
    if problems:
        raise DocumentError(problems)
    bulk_create_with_history(limits, PartLimit, default_user=curator)
    return {marking: part.pk for marking, part in library.items()}


def _new_part(wanted, curator):
    part = Part(curator=curator, **{k: v for k, v in wanted.items() if k != "limits"})
    return _saved(part, curator)


def _saved(row, author):
    """The row, saved, with its author in its history."""
    row._history_user = author
    row.save()
    return row


def _compared(wanted, part, path, curator):
    """Limits that the library lacks, and what keeps them or others from being taken.

    A limit counts in every unit that cites the part, so only who curates the library may add one.
    """
    known = {(limit.quantity, limit.citation): limit.value for limit in part.limits.all()}
    missing, problems = [], []
    for place, limit in enumerate(wanted):
        value = known.get((limit["quantity"], limit["citation"]))
        where = f"{path}.limits[{place}]: the library's entry {part.marking}"
        if value is None and curator.has_role(Role.MODERATOR):
            missing.append(limit)
        elif value is None:
            problems.append(f"{where} does not have this limit; ask a moderator to add it, or "
                            "remove it here")
        elif value != limit["value"]:
            problems.append(f"{where} gives {value:g} for {limit['quantity']} with this citation, "
                            f"the document {limit['value']:g}; look it up and correct one")
    return missing, problems
