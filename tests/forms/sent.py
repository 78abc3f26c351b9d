"""What a browser would send for a section as it is drawn, with some fields typed over."""
from html.parser import HTMLParser

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


class _Controls(HTMLParser):
    """The successful controls of a page, by name, as a browser sends them untouched."""

    def __init__(self):
        super().__init__()
        self.sent, self.select, self.area = {}, None, None

    def handle_starttag(self, tag, attributes):
        values = dict(attributes)
        name = values.get("name")
        if tag == "input" and name and values.get("type") not in ("radio", "checkbox"):
            self.sent[name] = values.get("value") or ""
        elif tag == "input" and name and "checked" in values:
            self.sent[name] = values.get("value", "on")
        elif tag == "textarea":
            self.area, self.sent[name] = name, ""
        elif tag == "select":
            self.select = name
        elif tag == "option" and self.select and ("selected" in values
                                                  or self.select not in self.sent):
            self.sent[self.select] = values.get("value") or ""

    def handle_data(self, data):
        if self.area:
            self.sent[self.area] += data

    def handle_endtag(self, tag):
        self.select = None if tag == "select" else self.select
        self.area = None if tag == "textarea" else self.area


def as_a_browser_sends(page, **button):
    """What the page of a section sends when nobody touched it; page : HTML."""
    controls = _Controls()
    controls.feed(page)
    return controls.sent | (button or {"save": "here"})
