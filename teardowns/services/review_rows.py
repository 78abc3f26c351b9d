"""All that a review goes through, with what stands behind each row: a query a kind, two more."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import F, FilteredRelation, OuterRef, Q, Subquery, Value
from django.db.models.functions import Concat

from core.accounts.models import User
from teardowns import access
from teardowns.models import (
    EVIDENCE,
    Correction,
    InsulationObservation,
    Measurement,
    Photo,
    PhotoDerivative,
    PhotoReading,
    RecordingReading,
    ReviewDecision,
    Unit,
)
from teardowns.reviewing.words import Word

WIDEST = 1280            # pixels of a picture that regions are cut from
HELD = ("pk", "opened_at", "active_at", "sides")
READ_FROM_PHOTO = (InsulationObservation, Measurement)


@dataclass(frozen=True, slots=True)
class Said:
    """A word with what a page prints of it."""

    word: Word
    name: str                        # of the reviewer
    at: datetime
    second_value: float | None       # SI
    second_uncertainty: float | None      # SI, k = 1


@dataclass(frozen=True, slots=True)
class ShownPhoto:
    """A photo with pictures, and the marks on it."""

    key: str
    width: int                       # px, as shown
    height: int
    alt: str
    picture: int                     # px: the width that regions are cut from
    marks: tuple[tuple[str, Any], ...]    # ref that it shows, and the annotation


def unit_under_review(reviewer: User, pk: int) -> Unit:
    """The unit that this reviewer holds, with its work and `held_…`, the review; or 404."""
    open_one = Correction.objects.filter(unit=OuterRef("pk"), closed_at=None)
    units = Unit.objects.with_work().annotate(
        held=FilteredRelation("reviews", condition=Q(reviews__reviewer=reviewer.pk,
                                                     reviews__closed_at=None)),
        work_reason=Subquery(open_one.values("reason")[:1]),
    ).annotate(**{f"held_{name}": F(f"held__{name}") for name in HELD})
    return access.unit_to_review(reviewer, pk, units)


def rows_under_review(unit: Unit, reviewer: User) -> dict[str, list[Any]]:
    """The evidence by kind, with whatever its rows name, and where their numbers were read."""
    return {str(model._meta.model_name): list(_rows(model, unit, reviewer)) for model in EVIDENCE}


def row_under_review(unit: Unit, reviewer: User, kind: str, key: str) -> Any:
    """One of these rows, or None."""
    model = next((each for each in EVIDENCE if each._meta.model_name == kind), None)
    return model and _rows(model, unit, reviewer).filter(key=key).first()


def _rows(model, unit, reviewer):
    cited = [field.name for field in model._meta.fields if field.many_to_one]
    rows = model.objects.filter(unit=unit).select_related(*cited)
    if model in READ_FROM_PHOTO:
        rows = rows.annotate(**_readings(model, reviewer))
    return rows.annotate(**_span()) if model is Measurement else rows


def _readings(model, reviewer):
    """The first length that was read off its photo, and this reviewer's last blind one."""
    ref = Concat(Value(f"{model._meta.model_name}/"), OuterRef("key"))
    of_row = PhotoReading.objects.filter(photo=OuterRef("photo"), shows=ref)
    own = of_row.filter(blind=True, author=reviewer.pk).order_by("-pk")
    return {"first_reading": Subquery(of_row.filter(blind=False).order_by("-pk").values("pk")[:1]),
            "own_value": Subquery(own.values("value")[:1]),
            "own_uncertainty": Subquery(own.values("uncertainty")[:1])}


def _span():
    """Where in its log a number was read."""
    read = RecordingReading.objects.filter(
        recording=OuterRef("recording"),
        shows=Concat(Value("measurement/"), OuterRef("key"))).order_by("-pk")
    return {f"span_{name}": Subquery(read.values(name)[:1]) for name in ("start", "end", "name")}


def said_of(unit: Unit) -> list[Said]:
    """Every word on every row of the unit, in the order in which they were said; one query."""
    decisions = ReviewDecision.objects.filter(review__unit=unit).order_by("pk").select_related(
        "review__reviewer").defer("review__sides")
    return [Said(Word(each.ref, each.evidence_version, each.review.reviewer_id, each.decision,
                      each.agrees, each.reason, each.review.correction_id),
                 each.review.reviewer.get_username(), each.created_at, each.second_value,
                 each.second_uncertainty) for each in decisions]


def photos_of(unit: Unit) -> dict[str, ShownPhoto]:
    """By key, what regions are cut from; one query, a row a mark."""
    pictures = PhotoDerivative.objects.filter(photo=OuterRef("pk"), width__lte=WIDEST)
    photos = Photo.objects.filter(unit=unit, taken_down_at=None).annotate(
        picture=Subquery(pictures.order_by("-width").values("width")[:1])
    ).exclude(picture=None).order_by("pk", "annotations__pk")
    found: dict[str, list[Any]] = {}
    for row in photos.values("key", "width", "height", "alt", "caption", "picture",
                             "annotations__shows", "annotations__body"):
        found.setdefault(row["key"], []).append(row)
    return {key: _shown(rows) for key, rows in found.items()}


def _shown(rows):
    first = rows[0]
    marks = tuple((row["annotations__shows"], row["annotations__body"]) for row in rows
                  if row["annotations__body"] is not None)
    return ShownPhoto(first["key"], first["width"], first["height"],
                      first["alt"] or first["caption"], first["picture"], marks)
