"""Sections of the bench sheet as JSON: the same forms as the page, their texts and their errors."""
from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms

from core.whole_number import whole_number
from teardowns.api.pointers import BodyErrors, pointer, strangers
from teardowns.forms.evidence_form import new_key
from teardowns.forms.row_set import total_name
from teardowns.forms.section_form import SectionForm
from teardowns.forms.unit_form import UnitForm
from teardowns.models import Unit

NO_TABLE = "This section has no such table: the tables are {}."


def section_payload(section: Any, unit: Unit) -> dict[str, Any]:
    """The section as its page would show it."""
    form = SectionForm(section, unit)
    return {
        "section": section.slug, "title": section.title,
        "unit": texts_of(form.unit_form) if form.unit_form else {},
        "rows": {rows.item.prefix: [texts_of(each) for each in rows.forms if each.row]
                 for rows in form.row_sets},
    }


def texts_of(form: Any) -> dict[str, str]:
    """The texts that stand in the fields of a form that nobody has typed into."""
    found = {}
    for name, field in form.fields.items():
        if isinstance(field, forms.BooleanField):
            continue
        value = field.prepare_value(form.get_initial_for_field(field, name))
        if value is not None:
            found[name] = value.isoformat() if hasattr(value, "isoformat") else str(value)
    return found


def typed_form(section: Any, unit: Unit, said: Any) -> SectionForm:
    """The section with what was said typed over what stands in it. Raises BodyErrors.

    said : of schemas.bench.SectionTyped
    """
    drawn = SectionForm(section, unit)
    tables = {rows.item.prefix: rows for rows in drawn.row_sets}
    errors = list(_strangers(drawn, tables, said))
    if errors:
        raise BodyErrors(errors)
    typed: dict[str, str] = {}
    if drawn.unit_form:
        texts = texts_of(drawn.unit_form) | said.unit
        typed |= {f"unit-{name}": text for name, text in texts.items()}
    for prefix, rows in tables.items():
        sent = said.rows.get(prefix, [])
        typed[total_name(prefix)] = str(len(sent))
        for index, texts in enumerate(sent):
            typed |= _typed_row(rows, prefix, index, texts)
    return SectionForm(section, unit, typed, check=True)


def _typed_row(rows, prefix, index, texts):
    """A stored row keeps what is not said of it; a new one begins as its blank does."""
    key = texts.get("key") or new_key(prefix)
    form = next((each for each in rows.forms if each.row and each.own_key == key), None)
    base = texts_of(form or rows.item.form_class(
        prefix=f"{prefix}-{index}", item=rows.item, references=rows.references | {"index": index},
        key=key))
    whole = base | {"version": "0" if form is None else base["version"]} | texts | {"key": key}
    return {f"{prefix}-{index}-{name}": text for name, text in whole.items()}


def _strangers(drawn, tables, said) -> Iterator[dict[str, str]]:
    yield from strangers(said.unit, drawn.unit_form.fields if drawn.unit_form else (), "unit")
    for prefix, rows in said.rows.items():
        if prefix not in tables:
            yield {"detail": NO_TABLE.format(", ".join(tables) or "none"),
                   "pointer": pointer("rows", prefix)}
            continue
        item = tables[prefix].item
        form = item.form_class(prefix=prefix, item=item,
                               references=tables[prefix].references | {"index": 0}, key=prefix)
        for index, row in enumerate(rows):
            yield from strangers(row, form.fields, "rows", prefix, index)


def errors_of(form: SectionForm) -> list[dict[str, str]]:
    """Everything that needs a change, with its place in what was sent."""
    return [{"detail": message, "pointer": pointer(*place, *_field(name))}
            for place, each in _placed_forms(form) for name, found in each.errors.items()
            for message in found]


def is_stale(form: SectionForm) -> bool:
    """Whether something was typed over a row that has changed since it was read."""
    return any(each.errors and _seen(each) != _now(each) for _, each in _placed_forms(form))


def _placed_forms(form):
    if form.unit_form:
        yield ("unit",), form.unit_form
    for rows in form.row_sets:
        for index, each in enumerate(rows.forms):
            if not each.is_blank:
                yield ("rows", rows.item.prefix, index), each


def _seen(form):
    return whole_number(str(form["version"].data or "0")) or 0


def _now(form):
    stored = form.stored if isinstance(form, UnitForm) else form.row
    return stored.version if stored else 0


def _field(name):
    return () if name == "__all__" else (name,)
