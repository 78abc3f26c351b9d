"""What every form of one evidence row shares: its key, version, state, note and removal."""
import secrets

from django import forms
from django.core.validators import RegexValidator

from teardowns.forms.quantity_field import as_shown
from teardowns.models import How, State
from teardowns.services.save_section import RowChange, differs

MOST_TEXT = 20_000
# Always filled, so no reason to show what stands beside them.
USUAL = {"how", "printed_text", "situation"}


NUMBER_ERRORS = {
    "invalid": "This is not a number here: write digits, for example 12.",
    "min_value": "This begins at %(limit_value)s: check the number.",
    "max_value": "This ends at %(limit_value)s: check the number.",
}


class _Carried(forms.Field):
    """A hidden value that the page carries: never a change that a person made."""

    widget = forms.HiddenInput

    def has_changed(self, initial, data):
        return False


class KeyField(_Carried, forms.CharField):
    def __init__(self):
        super().__init__(max_length=64, validators=[RegexValidator(r"\A[a-z0-9-]+\Z")])


class VersionField(_Carried, forms.IntegerField):
    def __init__(self):
        super().__init__(required=False, min_value=0, initial=0)


def state_field(found="Recorded", **options):
    """The four facts, as joined radios; none is chosen until somebody chooses."""
    order = (State.NOT_LOOKED, State.NOT_FOUND, State.NOT_READABLE)
    labels = [(state.value, state.label) for state in order] + [(State.RECORDED.value, found)]
    options = {"label": "State", "required": False} | options
    return forms.ChoiceField(choices=labels, widget=forms.RadioSelect, **options)


def how_field(initial=How.MEASURED):
    return forms.ChoiceField(choices=How, initial=initial, label="How obtained", required=False)


class WholeText(forms.CharField):
    """A text of limited length that no browser cuts: what is pasted arrives, or is refused."""

    default_error_messages = {
        "max_length": "This has %(show_value)d characters, and %(limit_value)d are kept: shorten "
                      "it.",
    }

    def widget_attrs(self, widget):
        attrs = super().widget_attrs(widget)
        attrs.pop("maxlength", None)
        return attrs


def text_field(label, most=120, **options):
    return WholeText(required=False, label=label, max_length=most, **options)


YES_NO = [("", "not looked"), ("yes", "yes"), ("no", "no")]


def yes_no_field(label, **options):
    """A fact that is looked for: yes, no, or nobody looked."""
    return forms.ChoiceField(choices=YES_NO, required=False, label=label, **options)


def yes_no(text):
    return {"yes": True, "no": False}.get(text)


def yes_no_text(fact):
    return {True: "yes", False: "no"}.get(fact, "")


def new_key(stem):
    """A key for a row that does not exist yet; the page carries it, so a resend finds the row."""
    return f"{stem.replace('_', '-')[:50]}-{secrets.token_hex(3)}"


def typed_initial(typed, form):
    """What the page sent for the fields of a form that is only drawn again."""
    sent = {name: typed.get(form.add_prefix(name)) for name in form.fields}
    return {name: text for name, text in sent.items() if text is not None}


def choose_first(fields):
    """A select without an empty choice sends its first one: an untouched row must expect that."""
    for field in fields:
        if isinstance(field.widget, forms.Select) and field.initial is None:
            field.initial = next((value for value, _ in field.choices), None)


class EvidenceForm(forms.Form):
    """One row of evidence. A subclass names its model, lays out its fields and gives `values`.

    `item` is the declaration in the section list, `row` the stored row or None, `typed` what a
    page that is only redrawn carries on, `references` the rows that this one may point at.
    """

    model = None
    main = ()                   # names of the fields in sight, in order
    more = ("note", "remove")   # names of the fields behind “More”
    template = "teardowns/_bench_row.html"
    names_ports = False         # whether a row says at which port of the unit it was taken
    review_remarks = ()         # what it was sent back for, put here by the page

    key = KeyField()
    version = VersionField()
    note = text_field("Note", 2000, widget=forms.Textarea(attrs={"rows": 2}))
    remove = forms.BooleanField(required=False, label="Remove this entry when saving")

    def __init__(self, data=None, *, prefix, item, row=None, typed=None, references=None, key=""):
        self.item, self.row, self.references = item, row, references or {}
        self.own_key = row.key if row else key
        super().__init__(data, prefix=prefix, empty_permitted=row is None,
                         use_required_attribute=False)
        self.prepare()
        choose_first(self.fields.values())
        self.initial = as_shown(self.fields, self.initial_of(row)) if row else {}
        self.initial |= {"key": self.own_key, "version": row.version if row else 0}
        if typed is not None:
            self.initial |= typed_initial(typed, self)

    def prepare(self):
        """Adapts the fields to the item, before initial values are set."""

    def initial_of(self, row):
        """The texts that the stored row shows in the fields."""
        own = {name: getattr(row, name, None) for name in self.fields}
        return {name: value for name, value in own.items() if value is not None}

    def values(self):
        """The stored fields that the typed ones mean; rows elsewhere are named by their key."""
        raise NotImplementedError

    def new_values(self):
        """What a row gets once, because no field asks: a stored row keeps what it has."""
        return {}

    def all_values(self):
        return self.values() | (self.new_values() if self.row is None else {})

    @property
    def main_fields(self):
        return [self[name] for name in self.main if name in self.fields]

    @property
    def more_fields(self):
        names = self.more if self.row else [name for name in self.more if name != "remove"]
        return [self[name] for name in names if name in self.fields]

    @property
    def more_title(self):
        labels = [field.label.lower() for field in self.more_fields if field.name != "remove"]
        title = ", ".join(labels).capitalize()
        return f"{title}, remove" if self.row else title

    @property
    def more_is_used(self):
        """Whether something stands behind “More”, so that it is shown opened."""
        wrong = self.errors if self.is_bound else ()
        return any(field.name in wrong or (field.value() and field.name not in USUAL)
                   for field in self.more_fields)

    @property
    def shown_version(self):
        """What the page carries: after a conflict was shown, the version that it was shown with."""
        if self.is_bound:
            return self.row.version if self.row else 0
        return self.initial.get("version") or 0

    @property
    def is_removed(self):
        return self.is_bound and bool(self["remove"].data)

    @property
    def is_blank(self):
        return self.row is None and (self.is_removed or not self.has_changed())

    def refuse_value(self, state, what):
        """A state other than “Recorded” beside something that was recorded."""
        self.add_error("state", f"The state says “{State(state).label}”, but {what} is written: "
                                "choose “Recorded”, or clear it.")

    def add_error(self, field, error):
        if not self.is_removed:             # what is wrong in a row that goes is no matter
            super().add_error(field, error)

    def clean(self):
        cleaned = super().clean()
        if not self.is_removed and not self.errors:
            self.check(dict(cleaned))      # add_error takes a field out of the original
        if not self.is_removed and not self.errors:
            self.check_version(cleaned)
        return cleaned

    def check(self, cleaned):
        """What no single field can know; adds errors."""

    def check_version(self, cleaned):
        """A row that changed since the page was drawn is shown beside what was typed."""
        seen = cleaned.get("version") or 0
        if self.row is None:
            if seen:
                self.add_error(None, "This entry was removed elsewhere since you opened the page. "
                                     "What you typed is kept; save again to enter it anew.")
        elif seen != self.row.version and differs(self.row, self.all_values()):
            self.add_error(None, self.conflict_message())

    def conflict_message(self):
        before = [
            f"{field.label}: {field.field.prepare_value(self.initial.get(field.name)) or 'empty'}"
            for field in self if field.name in self.changed_data and not field.is_hidden
        ]
        return ("This entry was changed elsewhere since you opened the page. Saved now: "
                f"{'; '.join(before)}. What you typed is kept below: save again to replace it.")

    def change(self):
        """The RowChange that saving this row takes, or None."""
        if self.is_blank:
            return None
        version = self.cleaned_data.get("version") or 0
        if self.is_removed:
            return RowChange(self.model, self.own_key, version, None)
        values = self.all_values()
        if self.row and not differs(self.row, values):
            return None
        return RowChange(self.model, self.own_key, version, values)
