"""Save one section of a bench sheet: may they, is it sound, change, log, recompute."""
import logging
from collections.abc import Iterable
from dataclasses import dataclass
from math import isclose
from typing import Any

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone

from core.audit.record import record
from teardowns.access import unit_to_change
from teardowns.models import EVIDENCE, Measurement, ReviewState, Unit, UnsavedSection
from teardowns.services.assess_units import assess_units
from teardowns.services.cite_part import PartCitation, SaveRefused, cite_part

logger = logging.getLogger(__name__)
SAME = 1e-9          # relative; texts in a form carry twelve digits


class StaleRows(Exception):
    """Rows changed since the page was drawn; nothing was saved."""


@dataclass(frozen=True)
class RowChange:
    """What one evidence row shall become. `values` None removes it; `version` is the one seen."""

    model: type
    key: str
    version: int
    values: dict[str, Any] | None


@dataclass(frozen=True)
class UnitChange:
    version: int
    values: dict[str, Any]


@dataclass(frozen=True)
class SavedSection:
    changed: int
    assessed: bool


def save_section(contributor, unit_pk: int, section: str, rows: Iterable[RowChange],
                 unit_change: UnitChange | None = None,
                 confirmations: Iterable[str] = ()) -> SavedSection:
    """All of a section or nothing. Raises Http404, StaleRows or SaveRefused.

    `confirmations` are steps that the contributor says were taken (“discharged”), for the log.
    """
    reason = f"Bench sheet: {section}"
    try:
        with transaction.atomic():
            unit = _lock(contributor, unit_pk)
            changed = _change_unit(unit, contributor, unit_change, reason)
            changed += _change_rows(unit, contributor, rows, reason)
            _log(unit, contributor, section, changed, confirmations)
            UnsavedSection.objects.filter(unit=unit, section=section, author=contributor).delete()
    except IntegrityError as error:
        logger.exception("section %s of unit %s broke a constraint", section, unit_pk)
        raise SaveRefused("These entries cannot be stored together. If two rows exchanged their "
                          "names, give one of them another name first.") from error
    except ValidationError as error:
        raise SaveRefused(" ".join(error.messages)) from error
    return SavedSection(len(changed), _assess(unit) if changed else True)


def _lock(contributor, unit_pk):
    """One save of a unit at a time; the row lock does nothing on SQLite, which has one writer."""
    Unit.objects.select_for_update().filter(pk=unit_pk).first()
    return unit_to_change(contributor, unit_pk)


def _change_unit(unit, contributor, change, reason):
    if change is None or not differs(unit, change.values):
        return []
    if unit.version != change.version:
        raise StaleRows
    _write(unit, contributor, change.values, reason)
    return ["unit"]


def _change_rows(unit, contributor, rows, reason):
    changed, ordered = [], sorted(rows, key=lambda row: EVIDENCE.index(row.model))
    stored = {model: _by_key(unit, model) for model in {row.model for row in ordered}}
    for change in sorted(ordered, key=lambda row: row.values is not None):
        row = stored[change.model].get(change.key)
        if _change_row(unit, contributor, change, row, reason):
            changed.append(f"{change.model._meta.model_name}/{change.key}")
    return changed


def _by_key(unit, model):
    return {row.key: row for row in model.objects.filter(unit=unit)}


def _change_row(unit, contributor, change, row, reason):
    """Whether something had to be written."""
    if change.values is None:
        return _remove(row, change, contributor, reason)
    values = _resolved(unit, contributor, change)
    if row is None:
        if change.version:
            raise StaleRows
        row = change.model(unit=unit, key=change.key, version=0)
    elif not differs(row, values):
        return False
    elif row.version != change.version:
        raise StaleRows
    _write(row, contributor, values, reason)
    return True


def _remove(row, change, contributor, reason):
    if row is None:
        return False
    if row.version != change.version:
        raise StaleRows
    row._change_reason, row._history_user = reason, contributor
    row.delete()
    return True


def _write(row, contributor, values, reason):
    for name, value in values.items():
        setattr(row, name, value)
    row.version += 1
    if hasattr(row, "review_state"):         # a review spoke of what stood there before
        row.author, row.review_state = contributor, ReviewState.OPEN
    row.clean_fields()
    row._change_reason, row._history_user = reason, contributor
    row.save()


def _resolved(unit, contributor, change):
    """Values with the rows that they name by key, which are saved before those that name them."""
    values = dict(change.values)
    if change.model is Measurement and values.get("value") is not None:
        values = {"bound": None, "bound_kind": ""} | values      # a value takes a limit's place
    for name in {"port", "component", "printed_text"} & values.keys():
        target, key = change.model._meta.get_field(name).related_model, values[name]
        if target:                          # the port of a claim is its printed name
            values[name] = target.objects.filter(unit=unit, key=key).first() if key else None
    if isinstance(citation := values.get("part"), PartCitation):
        values["part"] = cite_part(citation, contributor, unit)
    return values


def differs(row, values: dict[str, Any]) -> bool:
    """Whether the stored row is something else than these values say."""
    return any(not _same(getattr(row, name), value) for name, value in values.items())


def _same(stored, value):
    if isinstance(value, PartCitation):
        return value.agrees_with(stored)
    if isinstance(stored, float) and isinstance(value, float):
        return isclose(stored, value, rel_tol=SAME)
    if isinstance(value, str) and hasattr(stored, "key"):
        return stored.key == value
    return stored == value


def _log(unit, contributor, section, changed, confirmations):
    if changed:
        Unit.objects.filter(pk=unit.pk).update(changed_at=timezone.now())
        record(contributor, "section_saved", unit, section=section, changed=changed)
    for step in confirmations:
        record(contributor, step, unit, section=section)


def _assess(unit):
    """The evidence is stored by now: trouble in the engine must not look like lost entries."""
    try:
        assess_units([unit])
    except Exception:
        logger.exception("unit %s is saved but could not be assessed", unit.pk)
        return False
    return True
