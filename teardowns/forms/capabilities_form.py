"""A list of capabilities as an analyser wrote it, pasted or as a file, for one port."""
from __future__ import annotations

from hashlib import sha256

from django import forms
from django.core.validators import ProhibitNullCharactersValidator

from teardowns.forms.quantity_entry import names_given
from teardowns.forms.recording_forms import MOST_NAME
from teardowns.logs.capabilities import (
    MOST_TEXT,
    ORDERS,
    Capabilities,
    UnreadableCapture,
    read_capabilities,
)

MOST_BYTES = 4 * MOST_TEXT
TWO_LISTS = "There is a list above as well: clear it to read the file, or leave the file out."
NO_TEXT = "Paste the list, or choose a text file with it."


class CapabilitiesForm(forms.Form):
    port = forms.ChoiceField(label="Port", error_messages={
        "required": "Choose the port that it was read at. A port is added under “Ports”."})
    text = forms.CharField(
        label="The list", max_length=MOST_TEXT, required=False, strip=False,
        widget=forms.Textarea(attrs={"rows": 8, "spellcheck": "false", "class": "mono"}),
        error_messages={"max_length": f"The text is longer than {MOST_TEXT:,} characters: leave in "
                                      "only the lines that list the capabilities."},
        help_text="Words of eight hexadecimal digits in any spelling, bytes as they went over the "
                  "wire, or lines such as “9 V 3 A”.")
    file = forms.FileField(label="Or a text file", required=False, allow_empty_file=True)
    instrument = forms.CharField(label="Instrument", max_length=MOST_NAME, required=False)
    order = forms.ChoiceField(label="Which byte comes first?", required=False,
                              choices=[("", "not said"), *ORDERS.items()])

    def __init__(self, data=None, files=None, *, ports=(), **rest):
        super().__init__(data, files, auto_id="capabilities-%s", use_required_attribute=False,
                         **rest)
        self.fields["port"].choices = names_given(ports)
        self.fields["text"].validators = [
            each for each in self.fields["text"].validators
            if not isinstance(each, ProhibitNullCharactersValidator)]     # clean() says the remedy
        self.found: Capabilities | None = None
        self.orders: dict[str, tuple[str, ...]] = {}      # the words of each, where it is asked

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
        place = "file" if cleaned["file"] else "text"
        if cleaned["file"] and cleaned["text"].strip():
            self.add_error("file", TWO_LISTS)
            return cleaned
        cleaned["text"] = cleaned["file"] or cleaned["text"]
        if not cleaned["text"].strip():
            self.add_error("text", NO_TEXT)
        elif "\0" in cleaned["text"]:
            self.add_error(place, "The text holds a character that is none (NUL): copy only the "
                                  "lines of the list.")
        else:
            self._read(cleaned, place)
        return cleaned

    def _read(self, cleaned, place):
        """An answer counts where the list leaves the order open, and nowhere else."""
        try:
            self.found = read_capabilities(cleaned["text"])
            self.orders = self.found.readings
            if self.orders and cleaned["order"]:
                self.found = read_capabilities(cleaned["text"], cleaned["order"])
        except UnreadableCapture as error:
            self.add_error(place, str(error))

    @property
    def kept_text(self):
        """For the page: the list, also where it came as a file, which no browser sends twice."""
        said = getattr(self, "cleaned_data", {})
        return said.get("text") or said.get("file") or ""

    @property
    def digest(self):
        """Of what was read, under which order: only what was looked at is kept."""
        lines = [self.found.order, *self.cleaned_data["text"].splitlines()]
        return sha256("\n".join(lines).encode()).hexdigest()[:16]

    @property
    def asks_for_order(self):
        return self.found is not None and not self.found.order
