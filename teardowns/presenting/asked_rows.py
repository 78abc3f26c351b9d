"""A bench sheet as the list of what a reviewer will ask for reads it, in two queries."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Exists, F, FloatField, OuterRef, TextField, Value
from django.db.models.functions import Cast
from django.urls import reverse

from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Method,
    Path,
    PhotoScale,
    Port,
    PrintedText,
    Role,
    Source,
    StackLayer,
    Unit,
)

from .evidence_names import quantity_label

# Of each kind: which of it a row is, and what else is asked of it.
COLUMNS = {
    Measurement: ("quantity", "how"), Component: ("role", "marking"),
    PrintedText: ("source", "text"), Claim: ("kind", "text"), Port: ("label", "connector"),
    InsulationObservation: ("barrier", "path"), StackLayer: ("position", "kind"),
}


@dataclass(frozen=True, slots=True)
class AskedRow:
    kind: str                # "measurement"
    key: str
    state: str
    which: str               # quantity, role, source, kind of claim or barrier
    also: str                # how obtained, marking, text or path
    photo: int | None        # that shows it
    uncertainty: float | None
    mains: float | None      # V, while it was measured
    off_photo: bool          # read off a photo by a scale

    @property
    def ref(self) -> str:
        return f"{self.kind}/{self.key}"

    @property
    def called(self) -> str:
        return NAMES[self.kind](self.which, self.also)


NAMES = {
    "measurement": lambda code, how: quantity_label(code),
    "component": lambda role, marking: Role(role).label,
    "printedtext": lambda source, text: f"the text of the {Source(source).label}",
    "claim": lambda kind, text: f"the claim “{text}”",
    "port": lambda label, connector: f"port {label}",
    "insulationobservation": lambda barrier, path: f"a distance, {Path(path).label}",
    "stacklayer": lambda position, kind: f"layer {position} of the transformer",
}


@dataclass(frozen=True, slots=True)
class ShownPhoto:
    pk: int
    stage: str
    alt: str
    has_scale: bool


@dataclass(frozen=True, slots=True)
class Sheet:
    unit: Unit
    rows: Sequence[AskedRow]
    photos: Sequence[ShownPhoto]
    report: dict | None = None      # of all evidence; None before anything was assessed

    def of(self, kind: str, *which: str) -> list[AskedRow]:
        return [row for row in self.rows
                if row.kind == kind and (not which or row.which in which)]

    def states(self, kind: str, *which: str) -> list[str]:
        return [row.state for row in self.of(kind, *which)]

    def has_photo(self, *stages: str) -> bool:
        return any(photo.stage in stages for photo in self.photos)

    def section(self, slug: str, table: str = "") -> str:
        address = reverse("bench_section", args=[self.unit.pk, slug])
        return f"{address}#table-{table}" if table else address

    @property
    def photo_page(self) -> str:
        return reverse("bench_photos", args=[self.unit.pk])


def asked_rows(unit: Unit) -> list[AskedRow]:
    first, *others = (_columns(model, unit) for model in COLUMNS)
    return [AskedRow(*row[:-1], off_photo=row[-1] == Method.PHOTO_SCALE)
            for row in first.union(*others, all=True)]


def shown_photos(unit: Unit) -> list[ShownPhoto]:
    scales = PhotoScale.objects.filter(photo=OuterRef("pk"))
    found = unit.photos.shown().annotate(has_scale=Exists(scales))
    return [ShownPhoto(*row) for row in found.values_list("pk", "stage", "alt", "has_scale")]


def _columns(model, unit):
    """Text and numbers are cast alike in all: one column of a union has one type."""
    which, also = COLUMNS[model]
    number = {name: F(name) if _has(model, name) else Value(None)
              for name in ("uncertainty", "mains_voltage")}
    method = F("method") if _has(model, "method") else Value("")
    return model.objects.filter(unit=unit).order_by().annotate(
        asked_kind=Value(model._meta.model_name), asked_which=Cast(which, TextField()),
        asked_also=Cast(also, TextField()),
        asked_u=Cast(number["uncertainty"], FloatField()),
        asked_mains=Cast(number["mains_voltage"], FloatField()),
        asked_method=Cast(method, TextField()),
    ).values_list("asked_kind", "key", "state", "asked_which", "asked_also", "photo_id",
                  "asked_u", "asked_mains", "asked_method")


def _has(model, name):
    return any(field.name == name for field in model._meta.concrete_fields)
