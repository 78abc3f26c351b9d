"""What is said of a log as a whole, and of the span that a result is read from."""
from __future__ import annotations

from collections.abc import Mapping

from django import forms

from teardowns.forms.quantity_entry import names_given
from teardowns.forms.quantity_field import QuantityField
from teardowns.models import RecordingKind

FILED = [(kind.value, kind.label) for kind in RecordingKind if kind != RecordingKind.PROTOCOL]
MOST_NAME = 120


class ReceiveForm(forms.Form):
    """Beside the files: what they are."""

    kind = forms.ChoiceField(label="What was logged", choices=FILED)
    port = forms.ChoiceField(label="Port", required=False)
    instrument = forms.CharField(
        label="Instrument", max_length=MOST_NAME, required=False,
        help_text="As you call it. How its files are read is remembered under this name.")

    def __init__(self, data=None, *, ports=(), **rest):
        super().__init__(data, auto_id="receive-%s", use_required_attribute=False, **rest)
        self.fields["port"].choices = [("", "not at one port"), *names_given(ports)]


class SpanForm(forms.Form):
    """Where in the log one result is read from."""

    name = forms.CharField(widget=forms.HiddenInput, max_length=60)
    start = QuantityField("s", low=-1e12, label="From")
    end = QuantityField("s", low=-1e12, label="To")

    def clean(self):
        cleaned = super().clean()
        if not self.errors and cleaned["start"] is not None and cleaned["end"] is not None \
                and cleaned["start"] >= cleaned["end"]:
            self.add_error("end", "The span ends before it begins: write a later time here.")
        return cleaned

    def span(self):
        """(start, end), or None for where the reader itself looks."""
        start, end = self.cleaned_data["start"], self.cleaned_data["end"]
        return None if start is None or end is None else (start, end)


class DescribeRecordingForm(forms.Form):
    name = "describe"
    caption = forms.CharField(label="Caption", max_length=300, required=False,
                              help_text="What was done, such as “5 V, up in steps until it folds”.")
    instrument = forms.CharField(label="Instrument", max_length=MOST_NAME, required=False)
    port = forms.ChoiceField(label="Port", required=False)
    version = forms.IntegerField(widget=forms.HiddenInput, min_value=1)

    def __init__(self, data=None, *, ports=(), **rest):
        super().__init__(data, auto_id="describe-%s", use_required_attribute=False, **rest)
        self.fields["port"].choices = [("", "not at one port"), *names_given(ports)]


class InputLogForm(forms.Form):
    """Which other log holds the mains side of this test."""

    name = "input-log"
    other = forms.ChoiceField(label="Log of the mains side", required=False)
    offset = QuantityField("s", low=-1e9, label="It begins at",
                           help_text="Seconds of this log. Left empty: found by the steps that "
                                     "both show.")

    def __init__(self, data=None, *, others=(), **rest):
        super().__init__(data, auto_id="input-log-%s", use_required_attribute=False, **rest)
        self.fields["other"].choices = [("", "none"), *names_given(others)]


class TakeDownRecordingForm(forms.Form):
    name = "take-down"
    reason = forms.CharField(label="Why it is taken down", max_length=300, error_messages={
        "required": "Say why, for the log: it is of another unit, the meter was wrong."})


def answers_in(typed: Mapping[str, str]) -> dict[str, str]:
    """What a contributor chose where two readings were possible."""
    return {name.removeprefix("answer-"): value for name, value in typed.items()
            if name.startswith("answer-") and value}
