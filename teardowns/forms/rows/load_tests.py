"""One load that was asked for, and whether the unit held it."""
from math import isclose

from django import forms

from teardowns.forms.evidence_form import EvidenceForm, text_field
from teardowns.forms.quantity_entry import CONDITIONS, condition_field, port_field
from teardowns.forms.quantity_field import QuantityField
from teardowns.forms.spread import (
    spread_field,
    spread_kind_field,
    spread_texts,
    spread_values,
    value_field,
)
from teardowns.models import How, Measurement, Port, State, UncertaintyKind

HELD_LONG, HELD_SHORT = 600.0, 10.0            # s; what the two quantities mean by “held”
RESULTS = [("passed", "Held in regulation"), ("failed", "Left regulation, reset or shut down")]
RESULT_OF = {"sustained_power": "passed", "peak_power": "passed", "failed_power": "failed"}
AGREE = 0.05               # V·I against W: beyond this one of the three is a slip
SAME = 1e-9
ALL_PORTS = "*"            # no key of a port has such a sign


class LoadTestForm(EvidenceForm):
    model = Measurement
    main = ("port", "output_voltage", "output_current", "value", "spread", "spread_kind",
            "duration", "mains_voltage", "mains_frequency", "ambient")
    more = ("instrument", "note", "remove")
    template = "teardowns/_bench_load_test.html"
    names_ports = True

    result = forms.ChoiceField(choices=RESULTS, required=False, widget=forms.RadioSelect,
                               label="What happened")
    output_voltage = condition_field("output_voltage", "Voltage set")
    output_current = QuantityField("A", label="Output current", with_spread=True)
    value = value_field("W")
    spread = spread_field()
    spread_kind = spread_kind_field()
    duration = condition_field("duration", "Held for")
    mains_voltage = condition_field("mains_voltage", "Mains voltage")
    mains_frequency = condition_field("mains_frequency", "Mains frequency")
    ambient = condition_field("ambient")
    instrument = text_field("Instrument")

    def prepare(self):
        self.fields["port"] = port_field(self.references)
        if len(self.references.get(Port, ())) > 1 or (self.row and self.row.all_ports):
            self.fields["port"].choices += [(ALL_PORTS, "all ports loaded together")]
        self.fields["value"].label = "Output power"

    def initial_of(self, row):
        texts = {name: self.fields[name].print(getattr(row, name)) for name in CONDITIONS}
        return super().initial_of(row) | texts | spread_texts(row, "W", "") | {
            "output_current": self.fields["output_current"].print(row.output_current),
            "result": RESULT_OF[row.quantity],
            "port": ALL_PORTS if row.all_ports else row.port.key if row.port else "",
        }

    @property
    def remarks(self):
        """What the page says of a stored row that counts for less than it could."""
        return list(remarks_of(self.row)) if self.row else []

    def check(self, cleaned):
        if not cleaned["result"]:
            self.add_error("result", "Choose whether the load was held.")
        self.stored = spread_values(self, cleaned)
        self.check_product(cleaned)
        if cleaned["result"] == "passed":
            self.check_duration(cleaned["duration"])

    def check_product(self, cleaned):
        volts, amperes = cleaned["output_voltage"], cleaned["output_current"]
        is_outdated = self.is_outdated_product()
        typed = None if is_outdated else self.stored["value"]
        product = volts * amperes.value if volts and amperes else None
        if typed is None and product is None:
            self.add_error("value", "Write the output power, or both voltage and current.")
        elif typed is None:
            kept = self.stored if is_outdated and amperes.uncertainty is None else {}
            self.stored = self.product_values(volts, amperes) | {
                name: kept[name] for name in ("uncertainty", "uncertainty_kind") if kept}
        elif product is not None and abs(product - typed) > AGREE * max(product, typed):
            self.add_error("value", f"{volts:g} V × {amperes.value:g} A is {product:.3g} W, not "
                                    f"{typed:g} W: correct one of the three, or clear the power "
                                    "and it is worked out.")
        power = self.stored["value"]
        if power is not None and not 0.0 < power <= 1000.0:
            self.add_error("value", f"{power:g} W is outside what can exist here, 0 to 1000 W.")

    def is_outdated_product(self):
        """Whether the power is still the one that was worked out of what was corrected now."""
        row = self.row
        if row is None or "value" in self.changed_data or not (
                {"output_voltage", "output_current"} & set(self.changed_data)):
            return False
        return bool(row.output_voltage and row.output_current) and isclose(
            row.value, row.output_voltage * row.output_current, rel_tol=SAME)

    @staticmethod
    def product_values(volts, amperes):
        """The set voltage counts as exact: a meter's current dominates at a port."""
        if amperes.uncertainty is None:
            return {"value": volts * amperes.value, "uncertainty": None, "uncertainty_kind": ""}
        kind = UncertaintyKind.INTERVAL.value
        if amperes.uncertainty_kind != "interval":
            kind = amperes.uncertainty_kind
        return {"value": volts * amperes.value, "uncertainty": volts * amperes.uncertainty,
                "uncertainty_kind": kind}

    def check_duration(self, duration):
        if duration is None:
            self.add_error("duration", "A load that held needs its time, for example “30 min”: ten "
                                       "minutes and more count as held for long.")
        elif duration < HELD_SHORT:
            self.add_error("duration", "Less than ten seconds shows no power that a load can use: "
                                       "repeat it for longer, or write it into the remarks.")

    def quantity(self, cleaned):
        if cleaned["result"] == "failed":
            return "failed_power"
        return "sustained_power" if cleaned["duration"] >= HELD_LONG else "peak_power"

    def values(self):
        cleaned = self.cleaned_data
        own = {name: cleaned[name] for name in (*CONDITIONS, "instrument", "note")}
        amperes, all_ports = cleaned["output_current"], cleaned["port"] == ALL_PORTS
        return own | self.stored | {
            "quantity": self.quantity(cleaned), "all_ports": all_ports,
            "port": None if all_ports else cleaned["port"],
            "output_current": None if amperes is None else amperes.value,
        }

    def new_values(self):
        return {"state": State.RECORDED.value, "how": How.MEASURED.value}


def remarks_of(row):
    """Why a load says less than it could; see engine/conditions.py."""
    if row.quantity == "peak_power":
        yield ("Held for less than ten minutes, so it is kept as a short-time power: it says "
               "less about what the unit delivers for long.")
    if row.quantity == "failed_power" and row.output_voltage is None and row.all_ports:
        yield ("Without a voltage it counts only where no claim lies above 5 V. If all ports were "
               "set to one voltage, write it; if not, leave it blank, and say in the note what "
               "each was set to.")
    elif row.quantity == "failed_power" and row.output_voltage is None:
        yield ("Without the voltage set it counts only where no claim lies above 5 V: "
               "write the voltage that the port was set to.")
    if row.mains_voltage is None and row.quantity == "failed_power":
        yield "Without the mains voltage it counts at the low end of the mains range only."
    elif row.mains_voltage is None:
        yield "Without the mains voltage it counts at the high end of the mains range only."
