"""The rail of the bench sheet: every section with how much of it is filled, photos, logs, and
the way to hand it in with the remarks that wait for an answer."""
from django.db.models import CharField, Value
from django.db.models.functions import Cast
from django.urls import reverse

from teardowns.forms.items import UnitFields
from teardowns.forms.sections import SECTIONS
from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Photo,
    Port,
    PrintedText,
    Recording,
    ReviewRemark,
    StackLayer,
)
from teardowns.presenting.progress_cells import progress_cells

BY_FIELD = {Measurement: "quantity", Component: "role", PrintedText: "source"}
PHOTO, LOG = Photo._meta.model_name, Recording._meta.model_name
REMARK, SUBMIT = ReviewRemark._meta.model_name, "submit"
UNTOUCHED = ("", None, "unknown", 0)


def rail(unit, current, unsaved):
    """For the template.

    current : a section, LOG on the page of the logs, SUBMIT on that which hands it in, None on that
    of the photos; unsaved : slugs with text that could not be saved yet
    """
    present = _present(unit)
    sections = [_station(i, section, unit, present, current, unsaved)
                for i, section in enumerate(SECTIONS, start=1)]
    return {
        "sections": sections, "photos": _photos(unit, present, current),
        "logs": _logs(unit, present, current), "submit": _submit(unit, present, current),
        "here": next((station for station in sections if station["current"]), None),
        "filled": sum(station["done"] for station in sections),
        "total": sum(station["total"] for station in sections),
    }


def _present(unit):
    """Which kinds of rows the unit has, in one query: ("measurement", "mass_total"), …"""
    kinds = (Measurement, Component, PrintedText, Claim, Port, StackLayer, InsulationObservation)
    first, *others = (_kinds_of(model, unit) for model in kinds)
    shown = unit.photos.shown().order_by().values_list(Value(PHOTO), "key")
    logs = unit.recordings.kept().order_by().values_list(Value(LOG), "key")
    return set(first.union(*others, shown, logs, _remarks(unit)))


def _remarks(unit):
    """Those on the open work that have no answer."""
    found = ReviewRemark.objects.of_open_work(unit).unanswered().order_by()
    return found.annotate(called=Cast("pk", CharField(max_length=20))).values_list(
        Value(REMARK), "called")


def _kinds_of(model, unit):
    which = BY_FIELD.get(model)
    name = Value(model._meta.model_name)
    rows = model.objects.filter(unit=unit).order_by()
    return rows.values_list(name, which if which else Value(""))


def _photos(unit, present, current):
    """They fill no section: the station says how many there are."""
    return {"url": reverse("bench_photos", args=[unit.pk]), "current": current is None,
            "count": sum(kind == PHOTO for kind, _ in present)}


def _logs(unit, present, current):
    return {"url": reverse("bench_recordings", args=[unit.pk]), "current": current == LOG,
            "count": sum(kind == LOG for kind, _ in present)}


def _submit(unit, present, current):
    remarks = sum(kind == REMARK for kind, _ in present)
    return {"url": reverse("bench_submit", args=[unit.pk]), "current": current == SUBMIT,
            "remarks": f"{remarks} remark{'' if remarks == 1 else 's'}" if remarks else ""}


def _station(number, section, unit, present, current, unsaved):
    filled = [is_full for item in section.items for is_full in _filled(item, unit, present)]
    done, total = sum(filled), len(filled)
    return {
        "number": number, "title": section.title, "done": done, "total": total,
        "url": reverse("bench_section", args=[unit.pk, section.slug]),
        "current": section is current, "unsaved": section.slug in unsaved,
        "cells": progress_cells(done, total),
    }


def _filled(item, unit, present):
    if isinstance(item, UnitFields):
        return [getattr(unit, name) not in UNTOUCHED for name in item.names
                if name not in ("title", "kind", "currency", "listing_reach")]
    return [bool(item.presence & present)] if item.at_least else []

