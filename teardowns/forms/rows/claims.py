"""Statements read from the printed texts: prefilled by the reader, corrected by a person."""
from django import forms

from teardowns.forms.evidence_form import EvidenceForm, text_field
from teardowns.forms.quantity_field import QuantityField, RangeField
from teardowns.models import Claim, ClaimKind, How, PrintedText, State

SHARED = [("", "not said"), ("no", "this port alone"), ("yes", "ports together")]
RATINGS = {ClaimKind.OUTPUT, ClaimKind.TOTAL}
OUTPUT = ("voltage", "current", "power", "port", "shared")
IN_SIGHT = {ClaimKind.INPUT: ("voltage", "current", "frequency"), ClaimKind.OUTPUT: OUTPUT,
            ClaimKind.TOTAL: OUTPUT, ClaimKind.LISTING: ("power",), ClaimKind.MODEL: (),
            ClaimKind.FEATURE: ()}
ALL = ("printed_text", "voltage", "frequency", "current", "power", "port", "shared", "mark")


class ClaimForm(EvidenceForm):
    """In sight are the fields that claims of the row's kind use; the rest is behind “More”."""

    model = Claim
    kind = forms.ChoiceField(choices=ClaimKind, label="Kind", initial=ClaimKind.OUTPUT)
    text = text_field("As printed", 300)
    printed_text = forms.ChoiceField(required=False, label="Printed on")
    voltage = RangeField("V", label="Voltage")
    frequency = RangeField("Hz", label="Frequency")
    current = QuantityField("A", label="Current")
    power = QuantityField("W", label="Power, if printed")
    port = text_field("Port, as printed", 40)
    shared = forms.ChoiceField(choices=SHARED, required=False, label="Shared")
    mark = text_field("Mark or protocol", 60)
    start = forms.IntegerField(required=False, min_value=0, widget=forms.HiddenInput)
    end = forms.IntegerField(required=False, min_value=0, widget=forms.HiddenInput)

    def prepare(self):
        self.fields["printed_text"].choices = [
            ("", "not recorded"), *self.references.get(PrintedText, ())
        ]

    @property
    def main(self):
        return ("kind", "text", *IN_SIGHT.get(self["kind"].value(), ("mark",)))

    @property
    def more(self):
        return (*(name for name in ALL if name not in self.main), "note", "remove")

    @property
    def more_title(self):
        return "More of this claim"

    def initial_of(self, row):
        return super().initial_of(row) | {
            "printed_text": row.printed_text.key if row.printed_text else "",
            "voltage": self.fields["voltage"].print(row.voltage_low, row.voltage_high),
            "frequency": self.fields["frequency"].print(row.frequency_low, row.frequency_high),
            "current": self.fields["current"].print(row.current),
            "power": self.fields["power"].print(row.power),
            "shared": {True: "yes", False: "no", None: ""}[row.shared],
        }

    def check(self, cleaned):
        if self.row and self.row.state != State.RECORDED:
            return                          # brought in as a claim that nobody could read
        numbers = cleaned["voltage"][1], cleaned["current"], cleaned["power"]
        if cleaned["kind"] in RATINGS and not any(numbers):
            self.add_error("power", "An output claim needs a voltage and current, or a power.")
        if not cleaned["text"] and not any(numbers) and not cleaned["mark"]:
            self.add_error("text", "Write what is printed, word for word.")

    @property
    def span_fields(self):
        return [self["start"], self["end"]]

    def span(self, cleaned):
        """Where the words stand; found again if the text was corrected since it was read."""
        whole = self.references.get("texts", {}).get(cleaned["printed_text"], "")
        start, end, words = cleaned["start"], cleaned["end"], cleaned["text"]
        if start is not None and end is not None and whole[start:end] == words:
            return start, end
        if words and whole.count(words) == 1:
            return whole.index(words), whole.index(words) + len(words)
        return None, None

    def values(self):
        cleaned = self.cleaned_data
        start, end = self.span(cleaned)
        own = {name: cleaned[name]
               for name in ("kind", "text", "current", "power", "port", "mark", "note")}
        return own | {
            "printed_text": cleaned["printed_text"] or None,
            "voltage_low": cleaned["voltage"][0], "voltage_high": cleaned["voltage"][1],
            "frequency_low": cleaned["frequency"][0], "frequency_high": cleaned["frequency"][1],
            "shared": {"yes": True, "no": False, "": None}[cleaned["shared"]],
            "start": start, "end": end,
        }

    def new_values(self):
        return {"state": State.RECORDED.value, "how": How.READ_OFF.value}
