"""Parts of the board, by role; the marking is kept word for word and decoded beside it."""
from math import isclose

from django import forms

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.decoded import decode_for_role
from teardowns.forms.evidence_form import (
    NUMBER_ERRORS,
    EvidenceForm,
    how_field,
    state_field,
    text_field,
)
from teardowns.forms.number_fields import WholeField
from teardowns.forms.quantity_entry import port_field
from teardowns.forms.quantity_field import QuantityField, typed_text
from teardowns.models import Bridged, Component, How, Role, State
from teardowns.services.cite_part import PartCitation

UNITS = {                              # of the nominal value: SI unit, unit typed
    Role.FUSIBLE_RESISTOR: ("Ω", ""), Role.DISCHARGE_RESISTOR: ("Ω", "kΩ"),
    Role.SENSE_RESISTOR: ("Ω", ""), Role.FILTER_CHOKE: ("H", "mH"),
    Role.X_CAPACITOR: ("F", "nF"), Role.BARRIER_CAPACITOR: ("F", "nF"),
    Role.BULK_CAPACITOR: ("F", "µF"), Role.OUTPUT_CAPACITOR: ("F", "µF"),
}
LIMITS = {                             # published of a type: kept in the library with their source
    "controller_power_wide": "Published power, 85 to 265 V",
    "controller_power_high": "Published power, 230 V",
    "current_sense_threshold": "Current-sense threshold", "maximum_duty": "Largest duty cycle",
    "controller_supply_low": "Supply, stops below", "controller_supply_high": "Supply, at most",
}
TYPED = {                              # roles whose parts are known by a type with a data sheet
    Role.RECTIFIER, Role.PRIMARY_CONTROLLER, Role.PRIMARY_SWITCH, Role.CORE, Role.OPTOCOUPLER,
    Role.OUTPUT_RECTIFIER, Role.PROTOCOL_CONTROLLER, Role.PORT_CONVERTER, Role.PASS_SWITCH,
}
SAME = 0.01                 # a number and the marking that it is read from agree within 1 %
CONTENT = ("marking", "nominal", "tolerance", "rated_voltage", "rated_current", "rated_power",
           "ripple_current", "on_resistance", "diameter", "length", "safety_class", "designator",
           "place", "part_marking")


def _limit_field(code):
    quantity = QUANTITIES[code]
    return QuantityField(quantity.unit, quantity.shown_in, label=LIMITS[code])


class ComponentForm(EvidenceForm):
    """The item says which roles its rows may have and which of these fields they use."""

    model = Component
    template = "teardowns/_bench_component.html"

    state = state_field()
    role = forms.ChoiceField(label="What it is")
    marking = text_field("Marking, word for word", 200)
    count = WholeField(required=False, min_value=1, max_value=999, label="How many alike",
                       error_messages=NUMBER_ERRORS)
    nominal = QuantityField("1", label="Value of one", with_spread=True)
    tolerance = QuantityField("1", "%", label="Tolerance, ±")
    rated_voltage = QuantityField("V", label="Rated voltage")
    rated_current = QuantityField("A", label="Rated current")
    rated_power = QuantityField("W", label="Rated power")
    ripple_current = QuantityField("A", label="Rated ripple current, 100 kHz",
                                   help_text="Of one piece, from its data sheet.")
    on_resistance = QuantityField("Ω", "mΩ", label="On-resistance",
                                  help_text="Of a transistor as rectifier, at 25 °C.")
    diameter = QuantityField("m", "mm", label="Can diameter")
    length = QuantityField("m", "mm", label="Can length")
    safety_class = text_field("Safety class, as X2", 20)
    in_series = forms.BooleanField(required=False, label="These pieces lie in series")
    bridges = forms.ChoiceField(choices=Bridged, required=False, label="What it bridges")
    part_marking = text_field("Type, as its data sheet names it", 80)
    citation = text_field("Data sheet, revision, table or page", 300)
    designator = text_field("Designator on the board", 20)
    place = text_field("Place", 120)
    how = how_field(How.READ_OFF)

    def prepare(self):
        roles = self.item.roles
        self.main = ("role", "marking", *self.item.fields) if len(roles) > 1 else \
            ("marking", *self.item.fields)
        self.more = (*self.item.more, "designator", "place", "how", "note", "remove")
        self.fields["role"].choices = [(role.value, role.label) for role in roles]
        self.fields["role"].required = len(roles) > 1
        self.unit = UNITS.get(roles[0], ("1", ""))
        self.fields["nominal"] = QuantityField(*self.unit, label="Value of one", with_spread=True)
        self.fields |= {code: _limit_field(code) for code in LIMITS}
        self.fields["port"] = port_field(self.references)
        self.fields["port"].label = "Serves this port alone"
        # A role that the section gives is on no page: as a field it would come back missing.
        used = {"key", "version", "state", *self.main, *self.more}
        for name in self.fields.keys() - used:
            del self.fields[name]

    def initial_of(self, row):
        texts = {name: field.print(getattr(row, name)) for name, field in self.fields.items()
                 if isinstance(field, QuantityField) and name not in LIMITS}
        port = {"port": row.port.key if row.port else ""}
        return super().initial_of(row) | texts | port | _library_texts(row.part)

    @property
    def decoded(self):
        """The marking's meaning, for the page: of what is typed, else of what is stored."""
        return decode_for_role(self.role_now(), self["marking"].value())

    @property
    def contradictions(self):
        """Where a stored number and the marking beside it differ: one of the two is a slip."""
        decoded = decode_for_role(self.row.role, self.row.marking) if self.row else None
        read = decoded.fields if decoded else {}
        return [_differs_text(self.fields[name], getattr(self.row, name), value)
                for name, value in read.items()
                if isinstance(self.fields.get(name), QuantityField)
                and not _agree(getattr(self.row, name), value)]

    @property
    def role_now_is_open(self):
        """Whether the row has to say what it is, even of a part that was not found."""
        return len(self.item.roles) > 1

    @property
    def for_library(self):
        """The marking of a type that the library does not have for everybody yet, or ""."""
        row = self.row
        if row is None or row.role not in TYPED or (row.part and row.part.accepted_at):
            return ""
        return row.part.marking if row.part else row.marking[:80]

    def role_now(self):
        roles = self.item.roles
        return roles[0] if len(roles) == 1 else self["role"].value()

    def check(self, cleaned):
        state = cleaned["state"]
        written = [name for name in CONTENT if cleaned.get(name) not in (None, "")]
        if state in (State.NOT_LOOKED, State.NOT_FOUND) and written:
            self.refuse_value(state, f"“{self.fields[written[0]].label}”")
        elif state == State.NOT_READABLE and cleaned["marking"]:
            self.add_error("state", "“Not readable” stands beside a marking: choose “Recorded” and "
                                    "write ? for the letters that cannot be read.")
        elif state in ("", State.RECORDED) and not written:
            self.add_error("marking", "“Recorded” needs the marking or a value: write it, or "
                                      "choose another state.")
        self.check_limits({code: cleaned[code] for code in LIMITS if cleaned.get(code)})
        self.check_citation(cleaned)

    def check_limits(self, limits):
        for code, value in limits.items():
            quantity = QUANTITIES[code]
            if not quantity.low <= value <= quantity.high:
                shown = [typed_text(end, quantity.unit, quantity.shown_in)
                         for end in (value, quantity.low, quantity.high)]
                self.add_error(code, f"{shown[0]} is outside what can exist here, {shown[1]} to "
                                     f"{shown[2]}: check the number and its unit.")
        low, high = map(limits.get, ("controller_supply_low", "controller_supply_high"))
        if low and high and low >= high:
            self.add_error("controller_supply_low", "The supply stops below a voltage that is "
                                                    "lower than the highest: swap the two.")

    def check_citation(self, cleaned):
        limits = [code for code in LIMITS if cleaned.get(code)]
        if limits and not cleaned.get("citation"):
            self.add_error("citation", "A published value needs its source: name the document and "
                                       "the table or page.")
        if limits and not cleaned.get("part_marking"):
            self.add_error("part_marking", "Write the type that the data sheet is about.")

    def values(self):
        cleaned = self.cleaned_data
        own = {name: cleaned[name] for name in CONTENT if name in cleaned}
        own.pop("part_marking", None)
        if "nominal" in own:
            own |= self.nominal_values(cleaned)
        own |= self.decoded_values(own)
        if "count" in cleaned:
            own["count"] = cleaned["count"] or 1
        if "part_marking" in cleaned:
            own["part"] = self.cited_part(cleaned)
        own |= {name: cleaned[name] for name in ("in_series", "bridges", "port")
                if name in cleaned}
        return own | {
            "role": cleaned.get("role") or self.item.roles[0].value,
            "state": cleaned["state"] or State.RECORDED.value,
            "how": cleaned["how"] or How.READ_OFF.value,
            "note": cleaned["note"],
        }

    def decoded_values(self, own):
        """What a new marking says of blank fields; a field that was cleared later stays clear."""
        if "marking" not in self.changed_data:
            return {}
        decoded = decode_for_role(self.role_now(), own["marking"])
        found = decoded.fields if decoded else {}
        return {name: value for name, value in found.items()
                if name in own and own[name] in (None, "")}

    def nominal_values(self, cleaned):
        """`4.7 µF ± 20 %` states the tolerance too."""
        reading = cleaned["nominal"]
        if reading is None:
            return {"nominal": None}
        stated = {"nominal": reading.value}
        if reading.uncertainty is not None and cleaned.get("tolerance") is None and reading.value:
            stated["tolerance"] = reading.uncertainty / reading.value
        return stated

    def cited_part(self, cleaned):
        if not cleaned["part_marking"]:
            return None
        limits = self.limits_to_cite(cleaned)
        return PartCitation(cleaned["part_marking"], self.item.roles[0].label, limits,
                            cleaned["citation"] if limits else "")

    def limits_to_cite(self, cleaned):
        """What the library does not say yet. A source changed alone is corrected for all of them;
        beside a new value it is the source of the new one, and the others keep their pages."""
        stated = {code: cleaned[code] for code in LIMITS if cleaned.get(code) is not None}
        part = self.row.part if self.row else None
        if part is None or part.marking != cleaned["part_marking"]:
            return tuple(stated.items())
        new = {code: value for code, value in stated.items() if not _says(part, code, value)}
        corrected = stated if "citation" in self.changed_data else {}
        return tuple((new or corrected).items())


def _agree(written, read):
    return written is None or isclose(written, read, rel_tol=SAME)


def _differs_text(field, written, read):
    return (f"“{field.label}” says {field.print(written)}, the marking {field.print(read)}: "
            "correct the one that is wrong, or say in the note why they differ.")


def _says(part, code, value):
    return any(limit.quantity == code and isclose(limit.value, value, rel_tol=1e-9)
               for limit in part.limits.all())


def _library_texts(part):
    if part is None:
        return {}
    limits = {limit.quantity: limit for limit in part.limits.all() if limit.quantity in LIMITS}
    texts = {code: _limit_field(code).print(limit.value) for code, limit in limits.items()}
    cited = next((limit.citation for limit in limits.values()), "")
    return texts | {"part_marking": part.marking, "citation": cited}
