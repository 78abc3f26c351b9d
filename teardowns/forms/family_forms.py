"""Forms of a board family: its heading, a unit proposed for it, a unit removed."""
from __future__ import annotations

from django import forms

from .part_forms import LONG, LibraryForm

REFS = ("Name rows of evidence by unit, kind and name, as in 12/component/q1: they become links. "
        "The address of a row on the unit’s page ends with kind and name.")


class FamilyForm(LibraryForm):
    alike = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=1)
    name = forms.CharField(label="Name", max_length=120, help_text="By what its boards have in "
                           "common, such as a board number; not by a maker.",
                           error_messages={"required": "Give the family a name."})
    description = forms.CharField(label="What the board is", max_length=5000, required=False,
                                  widget=LONG)
    evidence_for = forms.CharField(label="What speaks for one board", max_length=10_000,
                                   required=False, widget=forms.Textarea(attrs={"rows": 5}),
                                   help_text=REFS)
    evidence_against = forms.CharField(label="What speaks against it", max_length=10_000,
                                       required=False, widget=forms.Textarea(attrs={"rows": 5}),
                                       help_text="Differences that were seen, and what was not "
                                                 "looked at.")

    def clean_name(self):
        return " ".join(self.cleaned_data["name"].split())


class ApartForm(LibraryForm):
    """Two units that look alike have two boards."""

    reason = forms.CharField(
        label="Why these are two boards", max_length=2000, widget=LONG,
        help_text="What differs in their design. It is kept, and the pair is not proposed again.",
        error_messages={"required": "Say what differs: the pair is not proposed again."})


class MemberForm(LibraryForm):
    alike = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=1)
    unit = forms.IntegerField(label="Unit", min_value=1, help_text="The number in the address of "
                              "its page.", error_messages={
                                  "required": "Give the number of a published unit.",
                                  "invalid": "Write the number alone, such as 12."})
    why = forms.CharField(label="What speaks for it, and what against", max_length=5000,
                          widget=forms.Textarea(attrs={"rows": 5}), help_text=REFS,
                          error_messages={"required": "Say what the boards have in common: whoever "
                                                      "decides about it goes by it."})
