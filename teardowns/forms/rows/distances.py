"""One path across one barrier: how far, how measured, what bridges it."""
from django import forms

from teardowns.forms.evidence_form import EvidenceForm, state_field, text_field
from teardowns.forms.spread import (
    spread_field,
    spread_kind_field,
    spread_texts,
    spread_values,
    value_field,
)
from teardowns.models import Barrier, How, InsulationObservation, Method, Path, State

MATERIALS = [("", "not known"), *((group, group) for group in ("I", "II", "IIIa", "IIIb"))]
LARGEST = 0.2              # m; no barrier of a charger is longer


class DistanceForm(EvidenceForm):
    model = InsulationObservation
    main = ("barrier", "path", "place", "value", "spread", "spread_kind", "method",
            "material_group", "bridged_by")
    template = "teardowns/_bench_distance.html"

    state = state_field()
    barrier = forms.ChoiceField(choices=Barrier, initial=Barrier.PRI_SEC, label="Barrier")
    path = forms.ChoiceField(choices=Path, label="Path")
    place = text_field("Place, from where to where")
    value = value_field("m", "mm")
    spread = spread_field()
    spread_kind = spread_kind_field()
    method = forms.ChoiceField(choices=Method, initial=Method.CALIPER, label="Method")
    material_group = forms.ChoiceField(choices=MATERIALS, required=False, label="Material group")
    bridged_by = text_field("Bridged by")

    def prepare(self):
        self.fields["value"].label = "Distance"
        # The two paths of one gap usually follow each other.
        is_second = self.references["index"] % 2
        self.fields["path"].initial = Path.CREEPAGE if is_second else Path.CLEARANCE

    def initial_of(self, row):
        return super().initial_of(row) | spread_texts(row, "m", "mm")

    def check(self, cleaned):
        self.stored = spread_values(self, cleaned)
        value, state = self.stored["value"], cleaned["state"]
        if not cleaned["place"]:
            self.add_error("place", "Name the two ends, such as “bulk capacitor + to port”.")
        if value is None and state in ("", State.RECORDED):
            self.add_error("value", "“Recorded” needs a distance: write it, or change the state.")
        elif value is not None and state not in ("", State.RECORDED):
            self.refuse_value(state, "a distance")
        elif value is not None and not 0.0 <= value <= LARGEST:
            self.add_error("value", "A distance here lies between 0 and 200 mm: check the number "
                                    "and its unit; a bare number is read as mm.")

    def values(self):
        cleaned = self.cleaned_data
        names = ("barrier", "path", "place", "method", "material_group", "bridged_by", "note")
        return self.stored | {name: cleaned[name] for name in names} | {
            "state": cleaned["state"] or State.RECORDED.value,
        }

    def new_values(self):
        return {"how": How.MEASURED.value}

    def where(self):
        """Barrier and place, by which the two paths of one gap are found."""
        return self.cleaned_data.get("barrier"), self.cleaned_data.get("place", "").casefold()

    @staticmethod
    def check_rows(forms):
        """The way along a surface is never shorter than the way through air (IEC 62368-1 5.4.3)."""
        through_air = {}
        for form in _recorded(forms, Path.CLEARANCE):
            through_air.setdefault(form.where(), form.stored["value"])
        for form in _recorded(forms, Path.CREEPAGE):
            clearance = through_air.get(form.where())
            if clearance is not None and form.stored["value"] < clearance:
                form.add_error("value", _too_short(form.stored["value"], clearance))


def _recorded(forms, path):
    """Valid rows of one path that carry a distance."""
    return [form for form in forms if not form.errors and not form.is_removed
            and form.cleaned_data["path"] == path and form.stored["value"] is not None]


def _too_short(creepage, clearance):
    return (f"The creepage of {creepage * 1e3:g} mm is shorter than the clearance of "
            f"{clearance * 1e3:g} mm at the same place. A path along the surface is at least as "
            "long as the path through air: check which is which, and measure again.")
