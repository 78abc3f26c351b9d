"""One fixed quantity: value, ± U, what ± means, how obtained, and the state of looking."""
from django import forms

from core.words.as_written import AsWritten
from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.evidence_form import EvidenceForm, how_field, state_field, text_field
from teardowns.forms.quantity_field import PEAK_TO_PEAK, QuantityField, bound_text, typed_text
from teardowns.forms.spread import (
    spread_field,
    spread_kind_field,
    spread_texts,
    spread_values,
    value_field,
)
from teardowns.models import Measurement, Port, State

# What a meter shows as 0 and is not 0: its last digit is a limit.
NEVER_ZERO = {"no_load_power", "touch_current"}
CONDITIONS = {                    # name: unit, unit typed, label
    "mains_voltage": ("V", "", "At mains voltage"),
    "mains_frequency": ("Hz", "", "At mains frequency"),
    "output_voltage": ("V", "", "At output voltage"),
    "duration": ("s", "min", "Held for"),
    "ambient": ("°C", "", "Air temperature"),
}


def condition_field(name, label=""):
    unit, shown_in, own_label = CONDITIONS[name]
    low = -273.15 if unit == "°C" else 0.0
    return QuantityField(unit, shown_in, low=low, label=label or own_label)


def port_field(references):
    """The key of a port of the unit, or None."""
    return forms.TypedChoiceField(required=False, label="Port", empty_value=None, choices=[
        ("", "not stated"), *names_given(references.get(Port, ()))])


def names_given(choices):
    """Choices under names that a person gave, which no language is put on."""
    return [(value, AsWritten(name)) for value, name in choices]


class QuantityEntryForm(EvidenceForm):
    model = Measurement
    more = ("instrument", "note", "remove")
    template = "teardowns/_bench_entry.html"

    state = state_field()
    value = value_field()
    spread = spread_field()
    spread_kind = spread_kind_field()
    how = how_field()
    instrument = text_field("Instrument")

    def prepare(self):
        self.quantity = QUANTITIES[self.item.code]
        unit, shown_in = self.quantity.unit, self.quantity.shown_in
        self.fields["value"] = value_field(unit, shown_in, takes_bounds=True,
                                           peak_to_peak=self.item.code in PEAK_TO_PEAK)
        self.fields["how"].initial = self.item.how
        for name in self.item.conditions:
            self.fields[name] = (
                port_field(self.references) if name == "port" else condition_field(name)
            )

    def initial_of(self, row):
        own = {name: typed_text(getattr(row, name), *CONDITIONS[name][:2])
               for name in self.item.conditions if name != "port"}
        if "port" in self.item.conditions:
            own["port"] = row.port.key if row.port else ""
        unit = self.quantity.unit, self.quantity.shown_in
        return super().initial_of(row) | own | spread_texts(row, *unit) | _bound_texts(row, *unit)

    @property
    def unit_label(self):
        """The unit that a bare number is read in."""
        unit = self.quantity.shown_in or self.quantity.unit
        return "" if unit == "1" else unit

    @property
    def condition_fields(self):
        return [self[name] for name in self.item.conditions]

    def check(self, cleaned):
        if getattr(cleaned.get("value"), "bound_kind", ""):
            self.check_bound(cleaned)
            return
        self.stored = spread_values(self, cleaned) | {"bound": None, "bound_kind": ""}
        value, state = self.stored["value"], cleaned.get("state")
        if value is None and state in ("", State.RECORDED):
            self.add_error("value", "“Recorded” needs a value: write it, or choose another state.")
        elif value is not None and state not in ("", State.RECORDED):
            self.refuse_value(state, "a value")
        elif value == 0.0 and self.item.code in NEVER_ZERO:
            self.add_error("value", "No instrument shows that this is nothing: write the limit of "
                                    f"what it resolves, for example “{self.example_of_limit()}”.")
        elif value is not None:
            self.check_range(value)

    def example_of_limit(self):
        shown_in = self.quantity.shown_in
        return bound_text("below", 1e-4 if shown_in else 0.1, self.quantity.unit, shown_in)

    def check_bound(self, cleaned):
        """“> 500 MΩ”: no value was shown, so the row has none; its limit is kept beside."""
        limit, state = cleaned["value"], cleaned.get("state")
        if cleaned.get("spread"):
            self.add_error("spread", "A limit has no uncertainty: clear ± U, or write a value.")
        if state in (State.NOT_LOOKED, State.NOT_FOUND):
            self.refuse_value(state, "a limit")
        self.check_range(limit.value)
        self.stored = {"value": None, "uncertainty": None, "uncertainty_kind": "",
                       "bound": limit.value, "bound_kind": limit.bound_kind}

    def check_range(self, value):
        low, high = self.quantity.low, self.quantity.high
        if not low <= value <= high:
            shown = [typed_text(end, self.quantity.unit, self.quantity.shown_in)
                     for end in (value, low, high)]
            self.add_error("value", f"{shown[0]} is outside what can exist here, {shown[1]} to "
                                    f"{shown[2]}: check the number and its unit.")

    def values(self):
        cleaned = self.cleaned_data
        return self.stored | {
            "quantity": self.item.code,
            "state": State.NOT_READABLE.value if self.stored["bound_kind"]
            else cleaned["state"] or State.RECORDED.value,
            "how": cleaned["how"] or self.item.how,
            "instrument": cleaned["instrument"],
            "note": cleaned["note"],
        } | {name: cleaned[name] for name in self.item.conditions}


def _bound_texts(row, unit, shown_in):
    """A limit stands in the field of the value; whoever typed it has recorded it."""
    if not row.bound_kind:
        return {}
    return {"value": bound_text(row.bound_kind, row.bound, unit, shown_in),
            "state": State.RECORDED.value}


class FlagEntryForm(EvidenceForm):
    """A part that is there or is not: found is 1, looked and not found is the engine's 0."""

    model = Measurement
    more = ("how", "note", "remove")
    template = "teardowns/_bench_flag.html"

    state = state_field(found="Found")
    how = how_field()

    def prepare(self):
        self.quantity = QUANTITIES[self.item.code]
        self.fields["how"].initial = self.item.how

    def check(self, cleaned):
        if not cleaned.get("state"):
            self.add_error("state", "A note is written: choose what was found as well.")

    def values(self):
        cleaned = self.cleaned_data
        state = cleaned["state"]
        was_so = self.row is not None and self.row.state == state
        value = self.row.value if was_so else 1.0 if state == State.RECORDED else None
        return {
            "quantity": self.item.code, "state": state, "value": value,
            "how": cleaned["how"] or self.item.how, "note": cleaned["note"],
        }
