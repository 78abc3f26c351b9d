"""A plate, a box or a listing, letter by letter, with its reading beside it."""
from django import forms

from teardowns.forms.evidence_form import MOST_TEXT, EvidenceForm, state_field
from teardowns.forms.plate_reading import shown_reading
from teardowns.models import How, PrintedText, Source, State


class PrintedTextForm(EvidenceForm):
    model = PrintedText
    main = ("source", "state")
    template = "teardowns/_bench_printed_text.html"

    source = forms.ChoiceField(choices=Source, label="Where it is printed")
    state = state_field()
    text = forms.CharField(
        required=False, max_length=MOST_TEXT, label="Text, letter by letter",
        widget=forms.Textarea(attrs={"rows": 6, "spellcheck": "false", "autocapitalize": "off"}),
        help_text="Keep lines, signs and spelling as printed. Write ? for a letter that cannot be "
                  "read. Leave serial numbers and names of sellers out.",
    )

    def prepare(self):
        first = (Source.PLATE, Source.LISTING)
        self.fields["source"].initial = dict(enumerate(first)).get(
            self.references["index"], Source.PACKAGING
        )

    def clean_text(self):
        # Browsers send CR LF; the spans of claims count one character a line end.
        return self.cleaned_data["text"].replace("\r\n", "\n")

    @property
    def reading(self):
        """The reading of what stands in the field, for the page."""
        return shown_reading((self["text"].value() or "").strip().replace("\r\n", "\n"))

    @property
    def is_unclaimed(self):
        """Whether a stored text says something that nobody has made a claim of yet."""
        return bool(self.row and not self.references.get("has_claims")
                    and self.reading and self.reading.statements)

    def check(self, cleaned):
        state, text = cleaned["state"], cleaned["text"]
        if text and state in (State.NOT_LOOKED, State.NOT_FOUND):
            self.refuse_value(state, "a text")
        elif not text and state in ("", State.RECORDED):
            self.add_error("text", "“Recorded” needs the text: write it, or choose another state.")

    def values(self):
        cleaned = self.cleaned_data
        return {
            "source": cleaned["source"], "text": cleaned["text"], "note": cleaned["note"],
            "state": cleaned["state"] or State.RECORDED.value,
        }

    def new_values(self):
        is_listing = self.cleaned_data["source"] == Source.LISTING
        return {"how": (How.SELLER if is_listing else How.READ_OFF).value}
