"""The transformer, layer by layer from the core outward."""
from django import forms

from teardowns.forms.evidence_form import (
    NUMBER_ERRORS,
    EvidenceForm,
    how_field,
    text_field,
    yes_no,
    yes_no_field,
    yes_no_text,
)
from teardowns.forms.number_fields import NumberField, WholeField
from teardowns.forms.quantity_field import QuantityField, typed_text
from teardowns.models import (
    Damage,
    LayerKind,
    Material,
    StackLayer,
    State,
    WindingRole,
    WireInsulation,
)

LAYERS = [
    *((role.value, f"{role.label} winding") for role in WindingRole if role != WindingRole.NONE),
    (LayerKind.INSULATION.value, "insulation"),
]
JOINED = [("", "in series"), ("yes", "in parallel")]
OF_WINDING = ("turns", "strands", "bare_diameter", "wire_insulation", "in_parallel", "sleeved")
OF_INSULATION = ("material", "tape_layers", "thickness", "withstood")
LENGTHS = ("bare_diameter", "thickness", "margin_left", "margin_right")


def _length(label, **options):
    return QuantityField("m", "mm", label=label, **options)


class TurnsField(NumberField):
    """Bare, or with the word behind it that people write."""

    units = ("turns", "turn", "t", "Windungen", "Wdg", "Wdg.")


class StackLayerForm(EvidenceForm):
    model = StackLayer
    names = ("position", "layer", *OF_WINDING, *OF_INSULATION, "margin_left", "margin_right",
             "damage", "condition", "documented")

    position = WholeField(min_value=1, max_value=999, label="Place",
                                  error_messages=NUMBER_ERRORS)
    layer = forms.ChoiceField(choices=[("", "choose"), *LAYERS], required=False, label="Layer")
    turns = TurnsField(required=False, min_value=0, max_value=5000, label="Turns",
                             error_messages=NUMBER_ERRORS)
    strands = WholeField(required=False, min_value=1, max_value=1000, label="Strands",
                                 error_messages=NUMBER_ERRORS)
    bare_diameter = _length("Bare diameter")
    wire_insulation = forms.ChoiceField(choices=WireInsulation, required=False,
                                        label="Wire insulation")
    in_parallel = forms.ChoiceField(choices=JOINED, required=False,
                                    label="Joined to its layer before")
    tape_layers = WholeField(required=False, min_value=0, max_value=100,
                                     label="Tape layers", error_messages=NUMBER_ERRORS)
    thickness = _length("Layer thickness")
    margin_left = _length("Margin, left")
    margin_right = _length("Margin, right")
    damage = forms.ChoiceField(choices=Damage, required=False, label="Damage")
    condition = text_field("Condition in words", 200)
    material = forms.ChoiceField(choices=Material, required=False, label="Material")
    documented = forms.BooleanField(
        required=False, label="A certificate or data sheet of this wire or tape was seen")
    sleeved = yes_no_field("Leads sleeved where they leave or cross")
    withstood = QuantityField("V", label="One layer alone withstood, d.c. or peak")
    how = how_field()

    @property
    def main(self):
        """A stored insulation needs no fields of a wire, a winding none of a tape."""
        layer = self["layer"].value() if self.row else ""
        unused = {"": (), LayerKind.INSULATION.value: OF_WINDING}.get(layer, OF_INSULATION)
        return tuple(name for name in self.names if name not in unused)

    @property
    def more(self):
        return (*(name for name in self.names if name not in self.main), "how", "note", "remove")

    def prepare(self):
        self.fields["position"].initial = self.references["index"] + 1

    def initial_of(self, row):
        lengths = {name: self.fields[name].print(getattr(row, name))
                   for name in (*LENGTHS, "withstood")}
        turns = typed_text(row.turns, "1")
        layer = row.winding or LayerKind.INSULATION.value
        joined = "yes" if row.in_parallel else ""
        return super().initial_of(row) | lengths | {
            "turns": turns, "layer": layer, "in_parallel": joined,
            "sleeved": yes_no_text(row.sleeved)}

    def check(self, cleaned):
        if not cleaned["layer"]:
            self.add_error("layer", "Choose what this layer is.")
        if cleaned["layer"] == LayerKind.INSULATION:
            for name in OF_WINDING:
                if cleaned[name]:
                    self.add_error(name, "Insulation has no wire: clear this, or choose a winding.")

    def values(self):
        cleaned = self.cleaned_data
        own = {name: cleaned[name] for name in (*self.names, "note") if name != "layer"}
        is_insulation = cleaned["layer"] == LayerKind.INSULATION
        return own | {
            "kind": (LayerKind.INSULATION if is_insulation else LayerKind.WINDING).value,
            "winding": "" if is_insulation else cleaned["layer"],
            "in_parallel": cleaned["in_parallel"] == "yes",
            "sleeved": yes_no(cleaned["sleeved"]),
            "how": cleaned["how"] or "measured",
        }

    def new_values(self):
        return {"state": State.RECORDED.value}

    @staticmethod
    def check_rows(forms):
        """A layer in parallel needs one of its winding closer to the core."""
        sound = [form.cleaned_data for form in forms if not form.errors]
        for form in forms:
            if form.errors or form.cleaned_data["in_parallel"] != "yes":
                continue
            layer, position = form.cleaned_data["layer"], form.cleaned_data["position"]
            if not any(other["layer"] == layer and other["position"] < position
                       for other in sound):
                form.add_error("in_parallel", f"No layer of the {layer} winding lies before this "
                                              "one: correct its place, or choose “in series”.")
