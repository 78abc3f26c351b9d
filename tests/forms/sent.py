"""What a browser would send for a section as it is drawn, with some fields typed over."""
from teardowns.forms.row_set import RowSet
from teardowns.forms.section_form import SectionForm
from teardowns.forms.sections import BY_SLUG


def sent(unit, slug, changes=None, **button):
    form = SectionForm(BY_SLUG[slug], unit)
    fields = {}
    for part in form.parts:
        if isinstance(part, RowSet):
            fields[f"{part.item.prefix}-TOTAL"] = str(part.total)
        for _, row in part.titles():
            fields |= _fields_of(row)
    return fields | (changes or {}) | (button or {"save": "here"})


def _fields_of(form):
    shown = {form.add_prefix(name): form[name].value() for name in form.fields}
    shown[form.add_prefix("version")] = form.shown_version
    return {name: str(value) for name, value in shown.items()
            if value is not None and value is not False}


def checked(unit, slug, changes):
    """The section as typed and validated."""
    form = SectionForm(BY_SLUG[slug], unit, sent(unit, slug, changes), check=True)
    form.is_valid()
    return form


def messages(form):
    return " ".join(message for _, _, message in form.errors())


def only_change(form):
    """The values of the one row that saving would write."""
    (change,) = form.row_changes()
    return change.values
