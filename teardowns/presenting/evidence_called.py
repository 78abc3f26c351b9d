"""What every row of a unit's evidence is called, asked for at once."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.db.models import CharField, Value
from django.db.models.functions import Cast

from core.words.as_written import Quoted
from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Port,
    PrintedText,
    Source,
    StackLayer,
    Unit,
)

from .evidence_names import component_name, path_name, quantity_label

# The two columns that make up the name of a row, and how they do.
CALLED = {
    Component: ("role", "designator", component_name),
    InsulationObservation: ("place", "path", path_name),
    StackLayer: ("position", "kind", lambda place, kind: f"Layer {place} of the transformer"),
    Port: ("label", "key", lambda label, key: f"Port {label}"),
    Measurement: ("quantity", "key", lambda code, key: quantity_label(code)),
    PrintedText: ("source", "key", lambda source, key: f"Printed on the {Source(source).label}"),
    Claim: ("text", "mark", lambda text, mark: Quoted(text or mark)),
}


def evidence_called(unit: Unit) -> dict[str, str]:
    """Names by ref, in one query: {"component/bulk-1": "bulk capacitor C1"}."""
    first, *others = (_columns(model, unit) for model in CALLED)
    names = {model._meta.model_name: name for model, (*_, name) in CALLED.items()}
    return {f"{kind}/{key}": names[kind](one, other)
            for kind, key, one, other in first.union(*others, all=True)}


def called_in(rows: Mapping[str, Iterable[Any]]) -> dict[str, str]:
    """The same of rows that are there already, by model name."""
    return {row.ref: name(getattr(row, one), getattr(row, other))
            for model, (one, other, name) in CALLED.items()
            for row in rows[model._meta.model_name]}


def _columns(model, unit):
    one, other, _ = CALLED[model]
    text = CharField(max_length=400)
    return model.objects.filter(unit=unit).order_by().annotate(
        called_kind=Value(model._meta.model_name), called_one=Cast(one, text),
        called_other=Cast(other, text),
    ).values_list("called_kind", "key", "called_one", "called_other")
