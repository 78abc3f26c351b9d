"""What a reviewer writes: that there is no conflict, a decision a row, a reading, a remark."""
from __future__ import annotations

from typing import Any

from django import forms

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.quantity_field import PEAK_TO_PEAK, QuantityField
from teardowns.forms.spread import (
    spread_field,
    spread_kind_field,
    spread_values,
    value_field,
)
from teardowns.models import InsulationObservation, ReviewState, UncertaintyKind
from teardowns.services.decide_evidence import REASON, Reading

MOST_WORDS = 2_000
NONE, SOME = "none", "some"
# From what was stated to a standard uncertainty, k = 1: JCGM 100:2008, 4.3 and 6.2.
DIVISORS = {UncertaintyKind.STANDARD: 1.0, UncertaintyKind.INTERVAL: 2.0,
            UncertaintyKind.TOLERANCE: 3.0 ** 0.5}


def words_field(label: str, **options: Any) -> forms.CharField:
    return forms.CharField(label=label, required=False, max_length=MOST_WORDS,
                           widget=forms.Textarea(attrs={"rows": 2}), **options)


class ClaimForm(forms.Form):
    """Taking on a review takes a word on conflicts of interest."""

    declared = forms.ChoiceField(
        label="Conflict of interest", widget=forms.RadioSelect,
        choices=[(NONE, "I have none with its contributor, its maker, its seller or a competitor"),
                 (SOME, "I have one, so somebody else reviews it")],
        error_messages={"required": "Say whether you have a conflict of interest."})
    conflict = words_field("Which one?", help_text="Kept with the record; moderators can read it.")

    def clean(self):
        cleaned = super().clean()
        declared, conflict = cleaned.get("declared"), cleaned.get("conflict", "")
        if declared == SOME and not conflict:
            self.add_error("conflict", "Say which conflict it is, in a few words.")
        if declared == NONE and conflict:
            self.add_error("conflict", "You wrote of a conflict and chose “none”: choose the "
                                       "other answer, or clear this field.")
        return cleaned


class DecisionForm(forms.Form):
    """What is said of one row; its prefix is the row's ref, and nothing chosen says nothing."""

    version = forms.IntegerField(min_value=1, widget=forms.HiddenInput)
    decision = forms.ChoiceField(required=False, widget=forms.RadioSelect, choices=[
        (ReviewState.CONFIRMED, "Confirm"), (ReviewState.DISPUTED, "Dispute"),
        (ReviewState.REMEASURED, "Measured anew")],
        error_messages={"invalid_choice": "Choose one of the decisions that stand here."})
    reason = words_field("Reason")

    def clean(self):
        cleaned = super().clean()
        if cleaned.get("decision") == ReviewState.DISPUTED and not cleaned.get("reason"):
            self.add_error("reason", REASON)
        return cleaned


class SecondReadingForm(forms.Form):
    """A value that is typed without the first one in sight."""

    value = value_field()
    spread = spread_field()
    spread_kind = spread_kind_field()
    reason = words_field("How you measured it", help_text="Instrument, place, conditions.")

    def __init__(self, data=None, *, row):
        super().__init__(data)
        unit, shown_in, self.low, self.high = _asked(row)
        self.fields["value"] = value_field(
            unit, shown_in, peak_to_peak=getattr(row, "quantity", "") in PEAK_TO_PEAK)
        self.unit_label = "" if unit == "1" else shown_in or unit

    def clean(self):
        cleaned = super().clean()
        self.stored = spread_values(self, cleaned)
        value = self.stored["value"]
        if value is None and "value" not in self.errors:
            self.add_error("value", "Write what you measured, with its unit.")
        elif value is not None and not self.low <= value <= self.high:
            self.add_error("value", f"{self._typed(value)} is outside what can exist here: check "
                                    "the number and its unit.")
        return cleaned

    def _typed(self, value):
        field = self.fields["value"]
        assert isinstance(field, QuantityField)
        return field.print(value)

    @property
    def reading(self) -> Reading:
        """What was typed, its uncertainty as k = 1."""
        uncertainty = self.stored["uncertainty"]
        if uncertainty is None:
            return Reading(self.stored["value"])
        return Reading(self.stored["value"],
                       uncertainty / DIVISORS[self.stored["uncertainty_kind"]])


def _asked(row):
    """Unit, the unit that a person types, and what can exist."""
    if isinstance(row, InsulationObservation):
        return "m", "mm", 0.0, 1.0
    quantity = QUANTITIES.get(row.quantity)
    if quantity is None:
        return "1", "", float("-inf"), float("inf")
    return quantity.unit, quantity.shown_in, quantity.low, quantity.high


class CloseForm(forms.Form):
    remark = words_field("Remark for the moderator", help_text="What you want to be known beside "
                         "your decisions; it may stay empty.")


class TieForm(forms.Form):
    """A tie to an organisation or to a person who has an account here."""

    organisation = forms.CharField(label="Maker, seller or laboratory", max_length=120,
                                   required=False)
    username = forms.CharField(label="Or a person, by user name here", max_length=150,
                               required=False)
    relation = forms.CharField(label="What ties you to them", max_length=200, error_messages={
        "required": "Say what ties you to them: “I work there”, “we share a household”."})

    def __init__(self, data=None, *, person=None, people=None):
        super().__init__(data)
        self.person, self.people, self.other = person, people, None

    def clean(self):
        cleaned = super().clean()
        organisation, name = cleaned.get("organisation", ""), cleaned.get("username", "")
        if bool(organisation) == bool(name):
            self.add_error("organisation", "Name either an organisation or a person.")
        elif name:
            self._find(name)
        return cleaned

    def _find(self, name):
        self.other = self.people.filter(username=name).first()
        if self.other is None:
            self.add_error("username", f"Nobody here is called {name}: check the spelling.")
        elif self.other == self.person:
            self.add_error("username", "This is you. Your own work is never offered to you.")
