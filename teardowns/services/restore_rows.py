"""Make the rows of a unit say once more what a frozen state of it says.

A correction is written on the unit's live rows. Where it comes to nothing, the rows go back to the
version that stands, with their keys, numbers of version, authors and dates, so that what reviewers
said of them holds again. Files are never lost: a photo or log that came meanwhile is set aside.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.db.models import F, Value
from django.db.models.functions import Concat
from django.utils import timezone
from simple_history.utils import bulk_create_with_history, bulk_update_with_history

from core.accounts.models import User
from teardowns.models import (
    Annotation,
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Photo,
    PhotoClicks,
    PhotoReading,
    PhotoScale,
    PhotoTemperature,
    Port,
    PrintedText,
    Recording,
    RecordingReading,
    StackLayer,
    Unit,
    UnsavedSection,
)

from .thaw import model_rows, plain_rows

# What others name comes before what names it; it is taken away in the reverse order.
EVIDENCE: tuple[Any, ...] = (PrintedText, Port, Component, Claim, StackLayer,
                             InsulationObservation, Measurement)
ON_PHOTO: tuple[Any, ...] = (PhotoScale, PhotoClicks, Annotation, PhotoReading, PhotoTemperature)
ON_RECORDING: tuple[Any, ...] = (RecordingReading,)
FILES: tuple[Any, ...] = (Photo, Recording)

# Of the unit these go on living beside every version; of a file, what came of the file itself or
# was decided about it since.
LIVING = {"status", "published_at", "submitted_at", "quarantined_at", "publication", "successor",
          "contributor", "uid", "created_at", "changed_at"}
OF_FILE = {"published_at", "set_aside", "perceptual_hash", "stripped", "media_type", "byte_size",
           "width", "height", "received"}
TAKEN_DOWN = {"taken_down_at", "take_down_reason"}
SET_ASIDE = "It came with a correction that was not published."
WHY = "Back to the version that stands"

Frozen = Mapping[str, Any]


def restore_rows(unit: Unit, frozen: Frozen, writer: User, by: User | None) -> None:
    """Rows, values and marks of a locked unit as frozen, in the caller's transaction.

    frozen : of services.thaw.freeze
    writer : who wrote on the rows since; what the contributor of the unit took down stays down
    by : who caused it, for the history
    """
    keep = OF_FILE | (TAKEN_DOWN if writer.pk == unit.contributor_id else set())
    _remove(unit, frozen, writer, by)
    _put_back([unit], [frozen["unit"]], by, keep=LIVING)
    for model in FILES:
        _put_back(model.objects.filter(unit=unit), frozen.get(_name(model), ()), by, model, keep)
        _set_aside(model, unit, frozen)
    for model in EVIDENCE:
        _put_back(model.objects.filter(unit=unit), frozen.get(_name(model), ()), by, model)
    for model in (*ON_PHOTO, *ON_RECORDING):
        _put_back(_on_files(model, unit), frozen.get(_name(model), ()), by, model)
    UnsavedSection.objects.filter(unit=unit, author=writer).delete()


def _name(model: Any) -> str:
    return model._meta.model_name


def _on_files(model, unit):
    return model.objects.filter(**{
        "recording__unit" if model in ON_RECORDING else "photo__unit": unit})


def _remove(unit, frozen, writer, by):
    """Rows that are not in the frozen state; of marks on files only what the writer put there, for
    a reviewer's second reading is no part of a correction."""
    for model in reversed((*EVIDENCE, *ON_PHOTO, *ON_RECORDING)):
        kept = {row["pk"] for row in frozen.get(_name(model), ())}
        rows = (model.objects.filter(unit=unit) if model in EVIDENCE
                else _on_files(model, unit).filter(author=writer))
        for row in rows.exclude(pk__in=kept):
            row._history_user, row._change_reason = by, WHY
            row.delete()


def _set_aside(model, unit, frozen):
    """Files that came since: kept, and part of nothing."""
    known = {row["pk"] for row in frozen.get(_name(model), ())}
    files = model.objects.filter(unit=unit)
    files.filter(pk__in=known, set_aside=True).update(set_aside=False)
    files.exclude(pk__in=known).filter(published_at=None, set_aside=False).update(
        set_aside=True, taken_down_at=timezone.now(), take_down_reason=SET_ASIDE)


def _put_back(live: Iterable[Any], plain: Iterable[Mapping[str, Any]], by, model: Any = Unit,
              keep: Iterable[str] = ()) -> None:
    """Change what differs, and make what is gone, under the key that it had."""
    now = {row["pk"]: row["fields"] for row in plain_rows(live)}
    plain = plain_rows(model_rows(plain))    # with the columns that came since, at their default
    changed = [row for row in plain if row["pk"] in now
               and _told(row["fields"], keep) != _told(now[row["pk"]], keep)]
    gone = [row for row in plain if row["pk"] not in now]
    fields = [field.name for field in model._meta.fields
              if not field.primary_key and field.name not in keep]
    if model is Port and changed:            # labels may have changed places
        Port.objects.filter(pk__in=[row["pk"] for row in changed]).update(
            label=Concat(Value("~"), F("pk"), output_field=Port._meta.get_field("label")))
    _update(model, model_rows(changed), fields, by)
    if gone:
        _create(model, gone, by)


def _create(model, gone, by):
    if hasattr(model, "history"):
        bulk_create_with_history(model_rows(gone), model, default_user=by,
                                 default_change_reason=WHY)
    else:
        model.objects.bulk_create(model_rows(gone))
    dated = [field.name for field in model._meta.fields
             if getattr(field, "auto_now", False) or getattr(field, "auto_now_add", False)]
    if dated:                                # creating has put the hour of now there
        model.objects.bulk_update(model_rows(gone), dated)


def _update(model, rows, fields, by):
    if rows and hasattr(model, "history"):
        bulk_update_with_history(rows, model, fields, default_user=by, default_change_reason=WHY)
    elif rows:
        model.objects.bulk_update(rows, fields)


def _told(fields, keep):
    return {name: value for name, value in fields.items() if name not in keep}
