"""What somebody proposes to change in the part library, one form a kind; and the decision."""
from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.quantity_field import read_field, typed_text
from teardowns.models import Change, Part
from teardowns.services.library_quantities import library_quantities

LONG = forms.Textarea(attrs={"rows": 3})
FLAG_HINT = "Write 1 for yes or 0 for no."


def _text(label, longest, hint="", **options):
    return forms.CharField(label=label, max_length=longest, required=False, help_text=hint,
                           **options)


def _why(hint):
    return forms.CharField(
        label="Why", max_length=2000, widget=LONG, help_text=hint,
        error_messages={"required": "Say why: whoever decides about it, and whoever reads the "
                                    "history, goes by it."})


def _quantities(none=""):
    """Every quantity that the library keeps, with the unit that a bare number is read in."""
    return [("", none), *((one.code, f"{one.label}{_unit(one)}") for one in library_quantities())]


def _unit(quantity):
    unit = quantity.shown_in or quantity.unit
    return f" ({unit})" if unit != "1" else ""


class LibraryForm(forms.Form):
    """A form of the library; `seen` is the version of what it would change."""

    seen = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=1)

    def __init__(self, data=None, **rest):
        super().__init__(data, use_required_attribute=False, **rest)

    @property
    def shown(self):
        return [self[name] for name, field in self.fields.items() if not field.widget.is_hidden]

    @property
    def hidden(self):
        return self.hidden_fields()

    def said(self) -> dict[str, Any]:
        return {name: value for name, value in self.cleaned_data.items()
                if name not in ("seen", "why")}

    def texts(self) -> dict[str, str]:
        """What was typed, by field."""
        return {field.name: field.value() or "" for field in self.shown}

    def refuse(self, errors: dict[str, str]) -> None:
        """Errors of the service, each beside its field."""
        for name, message in errors.items():
            self.add_error(name if name in self.fields else None, message)

    def see_now(self, version: int, **others: int | None) -> None:
        """What is sent next answers to these versions, for the page shows them beside."""
        self.data = self.data.copy()
        for name, seen in {"seen": version, **others}.items():
            self.data[self.add_prefix(name)] = "" if seen is None else str(seen)


class DescriptionForm(LibraryForm):
    function = _text("What it is", 120, "Such as “primary-side controller with switch”.")
    package = _text("Package", 40, "As its data sheet names it: SOP-8, TO-220.")
    note = _text("Remark", 2000, "Look-alikes, other markings of the same type.", widget=LONG)
    why = _why("What speaks for it.")


class CitedForm(LibraryForm):
    """A value with the document that states it, to the page."""

    value = _text("Value", 80)
    document = _text("Document", 140, "Who published it and its title.")
    revision = _text("Revision or date", 60, "As the document gives it.")
    place = _text("Table or figure", 60)
    page = _text("Page", 20)

    def quantity_now(self):
        """The quantity that the value is of, or None."""
        return QUANTITIES.get(self.cleaned_data.get("quantity", ""))

    def clean(self):
        cleaned = super().clean()
        quantity, text = self.quantity_now(), cleaned.get("value", "")
        if quantity is None:
            return cleaned | {"value": None}
        try:
            cleaned["value"] = _read(text, quantity)
        except ValidationError as error:
            self.add_error("value", error)
        if not cleaned.get("document"):
            self.add_error("document", "A published value needs its source: name the document.")
        return cleaned


def _read(text, quantity):
    """The value in SI, inside what can exist."""
    if not text:
        raise ValidationError("Write the value as the document gives it, with its unit.")
    reading = read_field(text, quantity.unit, quantity.shown_in)
    if reading.uncertainty is not None:
        raise ValidationError("The library keeps one value: leave the ± part out, or put it in "
                              "the remark.")
    if quantity.is_flag and reading.value not in (0.0, 1.0):
        raise ValidationError(FLAG_HINT)
    if not quantity.low <= reading.value <= quantity.high:
        ends = (typed_text(end, quantity.unit, quantity.shown_in)
                for end in (quantity.low, quantity.high))
        raise ValidationError(f"“{text}” is outside what can exist here, {' to '.join(ends)}: "
                              "check the number and its unit.")
    return reading.value


class LimitForm(CitedForm):
    quantity = forms.ChoiceField(label="What the document limits or states", error_messages={
        "required": "Choose the quantity that the document gives."})
    why = _why("What the value is used for, or how you came by the document.")
    field_order = ("quantity", "value")

    def __init__(self, data=None, **rest):
        super().__init__(data, **rest)
        self.fields["quantity"].choices = _quantities("choose")


class ChangedLimitForm(CitedForm):
    why = _why("What is wrong with the present value or its source.")

    def __init__(self, data=None, *, quantity: str, **rest):
        self.quantity = QUANTITIES[quantity]
        super().__init__(data, **rest)

    def quantity_now(self):
        return self.quantity


class PartForm(CitedForm):
    """A new entry, with the limit that it is wanted for where there is one."""

    marking = forms.CharField(
        label="Marking", max_length=80, help_text="The type as its data sheet names it, without "
        "date and lot codes.", error_messages={"required": "Write the marking."})
    function = DescriptionForm.base_fields["function"]
    package = DescriptionForm.base_fields["package"]
    note = DescriptionForm.base_fields["note"]
    quantity = forms.ChoiceField(label="A value that its data sheet gives", required=False,
                                 help_text="May stay open; values can be proposed later.")
    why = _why("Where you met it, and what its data sheet is.")
    field_order = ("marking", "function", "package", "note", "quantity", "value")

    def __init__(self, data=None, **rest):
        super().__init__(data, **rest)
        self.fields["quantity"].choices = _quantities("none yet")

    def clean_marking(self):
        return " ".join(self.cleaned_data["marking"].split())

    def clean(self):
        typed = self.cleaned_data.get("value")
        cleaned = super().clean()
        if typed and not cleaned.get("quantity"):
            self.add_error("quantity", f"“{typed}” is a value of what? Choose, or clear it.")
        return cleaned


class RemovedLimitForm(LibraryForm):
    why = _why("What is wrong with it: another part’s sheet, a misread line.")


class SupersededForm(LibraryForm):
    successor = _text("Superseded by", 80, "The marking of the part in the library that takes its "
                                           "place. Cleared: by none.")
    why = _why("Which document says so.")

    def clean_successor(self):
        marking = self.cleaned_data["successor"]
        if not marking:
            return None
        found = Part.objects.listed().filter(marking__iexact=marking).first()
        if found is None:
            raise ValidationError(f"The library has no part “{marking}”: check the marking, or "
                                  "propose that part first.")
        return found


class DecisionForm(LibraryForm):
    """Of a proposal: with the version that the moderator saw, and of its part."""

    reason = forms.CharField(
        label="Why", max_length=2000, widget=LONG,
        help_text="The proposer reads it, and it stays in the history.",
        error_messages={"required": "Say why: the proposer reads it, and it stays in the "
                                    "history."})
    part_seen = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=1)


FORMS: dict[str, type[LibraryForm]] = {
    Change.PART: PartForm, Change.DESCRIPTION: DescriptionForm, Change.LIMIT: LimitForm,
    Change.LIMIT_CHANGED: ChangedLimitForm, Change.LIMIT_REMOVED: RemovedLimitForm,
    Change.SUPERSEDED: SupersededForm,
}
