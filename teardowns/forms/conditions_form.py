"""How the bench was set while a log was taken: what the log does not say of itself."""
from __future__ import annotations

import re

from django import forms
from django.core.exceptions import ValidationError

from teardowns.forms.number_fields import own_mark
from teardowns.forms.quantity_entry import condition_field
from teardowns.forms.quantity_field import QuantityField, as_shown, typed_text
from teardowns.logs.conditions import Accuracy, Cable, Conditions
from teardowns.logs.roles import ROLES
from teardowns.models import RecordingKind
from teardowns.reading.quantity import QuantityError, read_quantity

PLUS = re.compile(r"\s*(?:\+|±|\band\b|,\s)\s*")
DIGITS = re.compile(r"([\d.,]+)\s*(?:digits?|counts?|dgts?|d)", re.I)
MOST_SHARE = 50.0             # % of reading


class AccuracyField(forms.CharField):
    """`0.5 % + 20 mV`: limits of error as data sheets print them; an Accuracy, or None."""

    takes_numbers = True

    def __init__(self, unit, **options):
        self.unit = unit
        super().__init__(required=False, max_length=60, **options)

    def clean(self, value):
        text = super().clean(value)
        if not text:
            return None
        relative = absolute = digits = 0.0
        for part in filter(None, PLUS.split(text)):
            if part.endswith("%"):
                relative += self._number(part.removesuffix("%"), text)
            elif match := DIGITS.fullmatch(part):
                digits += self._number(match[1], text)
            else:
                absolute += self._fixed(part, text)
        if min(relative, absolute, digits) < 0:
            raise ValidationError(self._not_understood(text))
        if relative > MOST_SHARE:
            raise ValidationError(f"{relative:g} % of the reading is more than any instrument is "
                                  f"off: write at most {MOST_SHARE:g} %.")
        return Accuracy(relative / 100, absolute, digits)

    def _number(self, part, text):
        try:
            return read_quantity(part.strip(), "1", decimal_mark=own_mark()).value
        except QuantityError as error:
            raise ValidationError(self._not_understood(text)) from error

    def _fixed(self, part, text):
        try:
            return read_quantity(part, self.unit, default_unit=self.unit,
                                 decimal_mark=own_mark()).value
        except QuantityError as error:
            raise ValidationError(self._not_understood(text)) from error

    def _not_understood(self, text):
        return (f"“{text}” is not understood: write such as 0.5 % + 2 digits, or 0.5 % + 0.02 "
                f"{self.unit}.")

    def print(self, accuracy: Accuracy | None) -> str:
        if accuracy is None:
            return ""
        parts = [f"{100 * accuracy.relative:.12g} %"] if accuracy.relative else []
        parts += [typed_text(accuracy.absolute, self.unit)] if accuracy.absolute else []
        parts += [f"{accuracy.digits:.12g} digits"] if accuracy.digits else []
        return " + ".join(parts)


# The fields of each kind of log, in their order on the page.
FIELDS = {
    RecordingKind.LOAD_SWEEP: (
        "set_voltage", "lowest_voltage", "rated_current", "mains_voltage", "mains_frequency",
        "ambient", "cable_length", "cable_area", "cable_contacts", "accuracy-output_voltage",
        "accuracy-output_current", "accuracy-input_power"),
    RecordingKind.WAVEFORM: ("load", "rated_power", "bus_voltage", "primary_inductance",
                             "mains_voltage", "mains_frequency"),
    RecordingKind.THERMAL: ("mains_voltage", "mains_frequency", "ambient", "accuracy-temperature"),
}
FIELDS[RecordingKind.ENDURANCE] = (*FIELDS[RecordingKind.LOAD_SWEEP], "accuracy-temperature")
ACCURACIES = {"output_voltage": "V", "output_current": "A", "input_power": "W",
              "temperature": "°C"}


class ConditionsForm(forms.Form):
    """How the bench was set; only what this kind of log needs."""

    set_voltage = QuantityField(
        "V", label="Voltage of the port", help_text="What it was set or contracted to, such as 5 "
                                                        "V.")
    lowest_voltage = QuantityField(
        "V", label="Lowest voltage that counts", help_text="Left empty: 95 % of the voltage set.")
    rated_current = QuantityField(
        "A", label="Current on the plate", help_text="At that voltage; average efficiency is "
                                                     "taken at 25, 50, 75 and 100 % of it.")
    mains_voltage = condition_field("mains_voltage", "Mains voltage")
    mains_frequency = condition_field("mains_frequency", "Mains frequency")
    ambient = condition_field("ambient")
    cable_length = QuantityField(
        "m", label="Cable from port to meter", help_text="One way; 0 where the voltage was taken "
                                                         "at the port. Left empty: not known.")
    cable_area = QuantityField("m²", "mm²", label="Copper of one conductor",
                               help_text="Such as 0.2 mm².")
    cable_contacts = QuantityField("Ω", "mΩ", label="Contacts",
                                   help_text="Of all mated contacts, there and back.")
    load = QuantityField("W", label="Output power meanwhile")
    rated_power = QuantityField("W", label="Power on the plate",
                                help_text="What was captured well below it is not taken for "
                                          "full load.")
    bus_voltage = QuantityField("V", label="Across the bulk capacitor",
                                help_text="Measured by a meter: a scope's own scale is not "
                                          "trusted.")
    primary_inductance = QuantityField("H", "mH", with_spread=True, label="Primary inductance",
                                       help_text="Such as 1.2 ± 0.1 mH.")

    def __init__(self, data=None, *, kind: str, conditions: Conditions, **rest):
        self.kind = RecordingKind(kind)
        typed = rest.pop("initial", {})
        super().__init__(data, auto_id="conditions-%s", use_required_attribute=False, **rest)
        for role, unit in ACCURACIES.items():
            self.fields[f"accuracy-{role}"] = AccuracyField(
                unit, label=f"Limits of error, {ROLES[role].label}",
                help_text="As its data sheet prints them, such as 0.5 % + 2 digits."
                if unit != "°C" else "As its data sheet prints them, such as 1.5 °C.")
        wanted = FIELDS[self.kind]
        self.fields = {name: self.fields[name] for name in wanted}
        self.initial = as_shown(self.fields, self._texts(conditions)) | typed

    def _texts(self, stated):
        cable = stated.cable
        plain = {name: getattr(stated, name) for name in self.fields if hasattr(stated, name)}
        plain |= {} if cable is None else {
            "cable_length": cable.length, "cable_area": cable.area if cable.length else None,
            "cable_contacts": cable.contacts or None}
        texts = {name: self.fields[name].print(value) for name, value in plain.items()
                 if name in self.fields}
        if stated.inductance_u is not None and "primary_inductance" in texts:
            texts["primary_inductance"] = (
                f"{stated.primary_inductance * 1e3:.6g} ± {2e3 * stated.inductance_u:.6g} mH")
        return texts | {f"accuracy-{role}": self.fields[f"accuracy-{role}"].print(accuracy)
                        for role, accuracy in stated.accuracies.items()
                        if f"accuracy-{role}" in self.fields}

    def clean(self):
        cleaned = super().clean()
        if cleaned.get("cable_length") and not cleaned.get("cable_area"):
            self.add_error("cable_area", "The drop along a cable needs its copper: write the area "
                                         "of one conductor, or clear the length.")
        if cleaned.get("set_voltage") == 0:
            self.add_error("set_voltage", "A port is not set to 0 V: write its voltage, or leave "
                                          "this empty.")
        return cleaned

    def stated(self) -> Conditions:
        """Call it after is_valid()."""
        said = {name: self.cleaned_data.get(name) for name in self.fields}
        inductance = said.get("primary_inductance")
        cable = None if said.get("cable_length") is None else Cable(
            said["cable_length"], said["cable_area"] or 0.0, said["cable_contacts"] or 0.0)
        plain = {name: value for name, value in said.items()
                 if name in PLAIN and name != "primary_inductance"}
        return Conditions(
            **plain, cable=cable,
            primary_inductance=inductance.value if inductance else None,
            inductance_u=_standard(inductance),
            accuracies={role: said[f"accuracy-{role}"] for role in ACCURACIES
                        if said.get(f"accuracy-{role}")})


PLAIN = set(Conditions.__dataclass_fields__)


def _standard(reading):
    """A typed ± is taken as expanded, 95 %."""
    if reading is None or reading.uncertainty is None:
        return None
    return reading.uncertainty / 2
