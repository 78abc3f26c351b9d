"""Fields of the unit itself, as many of them as a section asks for."""
from datetime import date

from django import forms
from django.core.exceptions import ValidationError

from teardowns.forms.evidence_form import NUMBER_ERRORS, VersionField, typed_initial
from teardowns.forms.number_fields import AmountField, WholeField
from teardowns.models import Unit
from teardowns.services.save_section import UnitChange, differs

HELP = {
    "title": "How lists name it: maker, model, power as printed.",
    "maker": "As marked or listed; who really made it stays open.",
    "listing_reach": "Number of sales that the listing shows.",
    "plug": "Letter of the plug type, for example A, C or G.",
    "photographed_sides": "A part not seen on a photo of one side may sit on the other.",
    "notes": "What no field above holds. No personal data of sellers.",
}
LABELS = {
    "title": "Title", "kind": "Kind", "maker": "Maker, as printed", "model": "Model, as printed",
    "obtained_on": "Obtained on", "channel": "Obtained from", "price": "Price",
    "plug": "Mains plug", "currency": "Currency", "listing_reach": "Sales shown",
    "notes": "Remarks",
    "photographed_sides": "Sides of the board looked at",
}
SIGNS = {"€": "EUR", "£": "GBP"}       # $ and ¥ are signs of several currencies
SIDES = [(0, "none"), (1, "one side"), (2, "both sides")]


class UnitForm(forms.ModelForm):
    template = "teardowns/_bench_unit.html"
    version = VersionField()

    class Meta:
        model = Unit
        fields = list(LABELS)
        labels, help_texts = LABELS, HELP
        field_classes = {"price": AmountField, "listing_reach": WholeField}
        error_messages = {"title": {"required": "The unit needs a title: write maker, model and "
                                                "power as printed."},
                          "price": {"invalid": "Write the price as a number, for example 12.99."},
                          "listing_reach": NUMBER_ERRORS}
        widgets = {"obtained_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
                   "notes": forms.Textarea(attrs={"rows": 6}),
                   "photographed_sides": forms.Select(choices=SIDES)}

    def __init__(self, data=None, *, names, unit=None, prefix="unit", typed=None):
        self.stored = unit
        initial = {"version": unit.version if unit else 0}
        super().__init__(data, instance=unit, prefix=prefix, initial=initial,
                         use_required_attribute=False)
        for name in self.fields.keys() - {"version", *names}:
            del self.fields[name]
        if typed is not None:
            self.initial |= typed_initial(typed, self)

    def titles(self):
        """As of a RowSet: the unit's fields need no name but their own."""
        return [("", self)]

    @property
    def main_fields(self):
        return [self[name] for name in self.fields if name != "version"]

    @property
    def shown_version(self):
        if self.is_bound:
            return self.stored.version if self.stored else 0
        return self.initial["version"]

    def _post_clean(self):
        """The stored unit stays as it is: the service writes what changed."""

    def clean_title(self):
        return " ".join(self.cleaned_data["title"].split())

    def clean_obtained_on(self):
        day = self.cleaned_data["obtained_on"]
        if day and day > date.today():
            raise ValidationError("This day has not come yet: check the year.")
        return day

    def clean_price(self):
        price = self.cleaned_data["price"]
        if price is not None and price < 0:
            raise ValidationError("A price is not negative: check the sign.")
        return price

    def clean_currency(self):
        typed = self.cleaned_data["currency"].upper()
        code = SIGNS.get(typed, typed) or self._beside_price()
        if code and not (len(code) == 3 and code.isascii() and code.isalpha()):
            raise ValidationError("Write the three-letter code, for example EUR.")
        return code

    def _beside_price(self):
        """The currency that stands behind the price, where the field of its own is empty."""
        sign = (self["price"].data or "").strip().lstrip("0123456789., ").upper() \
            if "price" in self.fields else ""
        code = SIGNS.get(sign, sign)
        return code if code in AmountField.units else ""

    def clean(self):
        cleaned = super().clean()
        if cleaned.get("price") is not None and not cleaned.get("currency", "-"):
            self.add_error("currency", "A price needs its currency, for example EUR.")
        seen = cleaned.get("version") or 0
        if self.stored and not self.errors and seen != self.stored.version \
                and differs(self.stored, self.values()):
            self.add_error(None, self.conflict_message())
        return cleaned

    def conflict_message(self):
        before = [f"{self[name].label}: {self.get_initial_for_field(self.fields[name], name)}"
                  for name in self.changed_data]
        return ("The unit was changed elsewhere since you opened the page. Saved now: "
                f"{'; '.join(before)}. What you typed is kept below: save again to replace it.")

    def values(self):
        return {name: self.cleaned_data[name] for name in self.fields if name != "version"}

    def change(self):
        return UnitChange(self.cleaned_data.get("version") or 0, self.values())
