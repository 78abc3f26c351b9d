"""A list of capabilities as an analyser wrote it, pasted or as a file, for one port."""
from __future__ import annotations

from django import forms

from teardowns.forms.recording_forms import MOST_NAME
from teardowns.logs.capabilities import (
    MOST_TEXT,
    ORDERS,
    Capabilities,
    UnreadableCapture,
    read_capabilities,
)

MOST_BYTES = 4 * MOST_TEXT
NO_TEXT = "Paste the list, or choose a text file with it."


class CapabilitiesForm(forms.Form):
    port = forms.ChoiceField(label="Port", error_messages={
        "required": "Choose the port that it was read at. A port is added under “Ports”."})
    text = forms.CharField(
        label="The list", max_length=MOST_TEXT, required=False, strip=False,
        widget=forms.Textarea(attrs={"rows": 8, "spellcheck": "false", "class": "mono"}),
        help_text="Words of eight hexadecimal digits in any spelling, bytes as they went over the "
                  "wire, or lines such as “9 V 3 A”.")
    file = forms.FileField(label="Or a text file", required=False, allow_empty_file=True)
    instrument = forms.CharField(label="Instrument", max_length=MOST_NAME, required=False)
    order = forms.ChoiceField(label="Which byte comes first?", required=False,
                              choices=[("", "not said"), *ORDERS.items()])

    def __init__(self, data=None, files=None, *, ports=(), **rest):
        super().__init__(data, files, auto_id="capabilities-%s", use_required_attribute=False,
                         **rest)
        self.fields["port"].choices = list(ports)
        self.found: Capabilities | None = None

    def clean_file(self):
        file = self.cleaned_data["file"]
        if file is None:
            return ""
        if file.size > MOST_BYTES:
            raise forms.ValidationError(f"The file has {file.size:,} bytes, a list has a few "
                                        "hundred: cut out the lines that list the capabilities.")
        try:
            return file.read().decode("utf-8-sig")
        except UnicodeDecodeError as error:
            raise forms.ValidationError("The file is no text in UTF-8: open it, and paste what it "
                                        "says above.") from error

    def clean(self):
        cleaned = super().clean()
        if self.errors:
            return cleaned
        cleaned["text"] = cleaned["file"] or cleaned["text"]
        if not cleaned["text"].strip():
            self.add_error("text", NO_TEXT)
        elif "\0" in cleaned["text"]:
            self.add_error("text", "The text holds a character that is none (NUL): copy only the "
                                   "lines of the list.")
        else:
            self._read(cleaned)
        return cleaned

    def _read(self, cleaned):
        try:
            self.found = read_capabilities(cleaned["text"], cleaned["order"])
        except UnreadableCapture as error:
            self.add_error("text", str(error))

    @property
    def asks_for_order(self):
        return self.found is not None and not self.found.order
