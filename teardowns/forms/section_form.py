"""One section of the bench sheet as a form: all its items, drawn or checked together."""
from teardowns.forms.items import UnitFields
from teardowns.forms.row_set import RowSet, typed_total
from teardowns.forms.unit_form import UnitForm
from teardowns.models import EVIDENCE, Claim, Component, Port, PrintedText, Source

RELATED = {"measurement": ("port",), "claim": ("printed_text",), "component": ("part", "port")}


class SectionForm:
    """`typed` is what the page sent; with `check` it is validated, else only drawn again."""

    def __init__(self, section, unit, typed=None, *, check=False):
        self.section, self.unit, self.typed, self.check = section, unit, typed, check
        self.references = {}
        self._stored = self._load()
        self.groups = [(group, [self._part(item) for item in group.items])
                       for group in section.groups]

    def _load(self):
        """The unit's rows of each kind that the section shows; one query a kind."""
        models = {item.model for item in self.section.items if not isinstance(item, UnitFields)}
        if any(item.names_ports for item in self.section.items):
            models.add(Port)
        return {model: list(_rows(model, self.unit))
                for model in sorted(models, key=EVIDENCE.index)}

    def _part(self, item):
        if isinstance(item, UnitFields):
            data = self.typed if self.check else None
            typed = None if self.check else self.typed
            return UnitForm(data, names=item.names, unit=self.unit, typed=typed)
        self.references |= self._ports() | {"has_claims": self._has_claims()}
        rows = RowSet(item, self._stored[item.model], self.typed, check=self.check,
                      references=self.references)
        if item.model in (Port, PrintedText):
            self.references |= _references_of(item.model, rows)
        return rows

    def _has_claims(self):
        """Whether any claim is stored, or being typed in this section."""
        return bool(self._stored.get(Claim) or typed_total(self.typed or {}, "claims"))

    def _ports(self):
        if Port in self.references or Port not in self._stored:
            return {}
        return {Port: [(port.key, port.label) for port in self._stored[Port]]}

    @property
    def shown_groups(self):
        """(group, its parts, whether it stays folded) in the order of the page."""
        return [(group, parts, group.seldom and not any(map(_is_used, parts)))
                for group, parts in self.groups]

    @property
    def parts(self):
        return [part for _, parts in self.groups for part in parts]

    @property
    def row_sets(self):
        return [part for part in self.parts if isinstance(part, RowSet)]

    @property
    def unit_form(self):
        return next((part for part in self.parts if isinstance(part, UnitForm)), None)

    def is_valid(self):
        valid = [part.is_valid() for part in self.parts]          # each of them, always
        return all(valid)

    def errors(self):
        """(id of the field or row, its names, message) of everything that needs a change."""
        if not self.check:
            return []
        return [error for part in self.parts for title, form in part.titles()
                for error in _errors_of(form, title)]

    def row_changes(self):
        return [change for rows in self.row_sets for change in rows.changes()]

    def unit_change(self):
        return self.unit_form.change() if self.unit_form else None


def _is_used(part):
    return isinstance(part, RowSet) and any(
        form.row or form.errors or form.is_bound and form.has_changed() for form in part.forms)


def _errors_of(form, title):
    for name, found in form.errors.items():
        field = form[name] if name in form.fields else None
        place = field.id_for_label or field.auto_id if field else f"row-{form.prefix}"
        names = [name for name in (title, field.label if field else "") if name]
        yield from ((place, names, message) for message in found)


def _rows(model, unit):
    name = model._meta.model_name
    rows = model.objects.filter(unit=unit).select_related(*RELATED.get(name, ()))
    return rows.prefetch_related("part__limits") if model is Component else rows


def _references_of(model, rows):
    """What later rows of the section may point at: stored rows and those being typed."""
    if model is Port:
        return {Port: [(form.own_key, form["label"].value()) for form in rows.forms
                       if form["label"].value()]}
    texts = {form.own_key: _text_of(form) for form in rows.forms if form.row or _text_of(form)}
    sources = dict(Source.choices)
    return {
        PrintedText: [(form.own_key, sources.get(form["source"].value(), "text"))
                      for form in rows.forms if form.own_key in texts],
        "texts": texts,
    }


def _text_of(form):
    return (form["text"].value() or "").strip().replace("\r\n", "\n")


