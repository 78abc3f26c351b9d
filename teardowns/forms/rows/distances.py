"""One path across one barrier: how far, how measured, what it crosses, what bridges it."""
from math import hypot

from django import forms

from teardowns.forms.evidence_form import (
    EvidenceForm,
    state_field,
    text_field,
    yes_no,
    yes_no_field,
    yes_no_text,
)
from teardowns.forms.quantity_field import QuantityField, typed_text
from teardowns.forms.spread import (
    spread_field,
    spread_kind_field,
    spread_texts,
    spread_values,
    value_field,
)
from teardowns.models import (
    Barrier,
    How,
    InsulationObservation,
    Method,
    Path,
    Shape,
    Site,
    Situation,
    State,
)

# Tracking index (CTI) and UL class (PLC) of the groups: IEC 60664-1, 4.8.1.
MATERIALS = [
    ("", "not known"), ("I", "I: CTI 600 or more, PLC 0"), ("II", "II: CTI 400 to 599, PLC 1"),
    ("IIIa", "IIIa: CTI 175 to 399, PLC 2 or 3, as plain FR-4"),
    ("IIIb", "IIIb: CTI 100 to 174, PLC 4"),
]
DEGREES = [("", "not judged"), ("1", "1: sealed or clean"), ("2", "2: as in a home"),
           ("3", "3: conductive dirt or damp")]
# What each shape is measured by.
LENGTHS = {
    "groove": ("width", "straight"), "v_groove": ("width", "straight", "depth"),
    "slot": ("width", "from_x", "from_y", "to_x", "to_y", "start", "end"),
    "floating": ("gap_1", "gap_2", "gap_3"),
}
SHAPED = tuple(dict.fromkeys(name for names in LENGTHS.values() for name in names))
LARGEST = 0.2              # m; no barrier of a charger is longer
UNUSUAL = 0.025            # m; ways that long are rare on its boards (common practice, no source)


def _coordinate(label, **options):
    return QuantityField("m", "mm", low=-LARGEST, label=label, **options)


class DistanceForm(EvidenceForm):
    model = InsulationObservation
    main = ("barrier", "path", "place", "value", "spread", "spread_kind", "method",
            "material_group", "site", "bridged_by")
    more = ("situation", "coated", "contaminated", "pollution_degree", "particle",
            "particle_loose", "shape", *SHAPED, "note", "remove")
    more_title = "Shape, slot, floating metal, dirt, note"
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
    site = forms.ChoiceField(choices=Site, required=False, label="Where")
    situation = forms.ChoiceField(choices=Situation, required=False, label="Situation")
    shape = forms.ChoiceField(choices=Shape, required=False, label="What it crosses")
    coated = yes_no_field("Potted, coated or cemented over")
    contaminated = yes_no_field("Conductive dirt across it")
    pollution_degree = forms.ChoiceField(choices=DEGREES, required=False,
                                         label="Pollution degree")
    particle = QuantityField("m", "mm", label="Solder ball or clipping in the gap, size")
    particle_loose = yes_no_field("It is loose")
    width = QuantityField("m", "mm", label="Width of the groove or slot")
    straight = QuantityField("m", "mm", label="Straight across the groove")
    depth = QuantityField("m", "mm", label="Depth of a V-shaped groove")
    from_x = _coordinate("First conductor, across the slot from its middle")
    from_y = _coordinate("First conductor, along the slot")
    to_x = _coordinate("Second conductor, across the slot from its middle")
    to_y = _coordinate("Second conductor, along the slot")
    start = _coordinate("The slot begins at",
                        help_text="Leave it blank where the slot leaves the board.")
    end = _coordinate("The slot ends at",
                      help_text="Leave it blank where the slot leaves the board.")
    gap_1 = QuantityField("m", "mm", label="First gap beside floating metal")
    gap_2 = QuantityField("m", "mm", label="Second gap")
    gap_3 = QuantityField("m", "mm", label="Third gap")

    def prepare(self):
        self.fields["value"].label = "Distance"
        # The two paths of one gap usually follow each other.
        is_second = self.references["index"] % 2
        self.fields["path"].initial = Path.CREEPAGE if is_second else Path.CLEARANCE

    def initial_of(self, row):
        lengths = {name: self.fields[name].print(row.slot[name])
                   for name in (*SHAPED, "particle") if name in row.slot}
        loose = row.slot.get("particle_loose")
        return super().initial_of(row) | spread_texts(row, "m", "mm") | lengths | {
            "coated": yes_no_text(row.coated), "contaminated": yes_no_text(row.contaminated),
            "pollution_degree": str(row.pollution_degree or ""),
            "particle_loose": yes_no_text(None if loose is None else bool(loose))}

    @property
    def remark(self):
        """What the page says of a stored way that looks like a slip of the unit."""
        if self.row is None or self.row.value is None or self.row.value <= UNUSUAL:
            return ""
        return (f"{typed_text(self.row.value, 'm', 'mm')} is unusually long for such a way: check "
                "the number and its unit. If it is right, leave it as it is.")

    def check(self, cleaned):
        self.stored = spread_values(self, cleaned)
        self.check_shape(cleaned)
        if self.stored["value"] is None and cleaned["state"] in ("", State.RECORDED):
            self.stored["value"] = worked_out(cleaned)
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

    def check_shape(self, cleaned):
        """Lengths that the chosen shape does not have belong to another one."""
        own = LENGTHS.get(cleaned["shape"], ())
        for name in SHAPED:
            if cleaned.get(name) is not None and name not in own:
                self.add_error(name, "The path crosses nothing that has this length: clear it, or "
                                     "choose in “What it crosses” what it is.")
        straight, along = cleaned.get("straight"), self.stored["value"]
        if straight is not None and along is not None and straight > along:
            self.add_error("straight", "The way straight across is longer than the distance along "
                                       "the contour: check which is which.")
        if cleaned["particle_loose"] and cleaned.get("particle") is None:
            self.add_error("particle", "Write how large the particle is, or clear “It is loose”.")

    def values(self):
        cleaned = self.cleaned_data
        names = ("barrier", "path", "place", "method", "material_group", "bridged_by", "site",
                 "shape", "note")
        return self.stored | {name: cleaned[name] for name in names} | {
            "state": cleaned["state"] or State.RECORDED.value,
            "situation": cleaned["situation"] or Situation.AS_FOUND.value,
            "coated": yes_no(cleaned["coated"]), "contaminated": yes_no(cleaned["contaminated"]),
            "pollution_degree": int(cleaned["pollution_degree"] or 0) or None,
            "slot": self.lengths(cleaned),
        }

    def lengths(self, cleaned):
        found = {name: cleaned[name] for name in (*SHAPED, "particle")
                 if cleaned.get(name) is not None}
        loose = yes_no(cleaned["particle_loose"])
        return found | ({} if loose is None else {"particle_loose": float(loose)})

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


def worked_out(cleaned):
    """A distance that the lengths of the shape say: straight across a slot, the sum of gaps."""
    slot = [cleaned.get(name) for name in ("from_x", "from_y", "to_x", "to_y")]
    gaps = [cleaned[name] for name in LENGTHS["floating"] if cleaned.get(name) is not None]
    if cleaned["shape"] == Shape.SLOT and None not in slot:
        return hypot(slot[2] - slot[0], slot[3] - slot[1])
    return sum(gaps) if cleaned["shape"] == Shape.FLOATING and gaps else None


def _recorded(forms, path):
    """Valid rows of one path that carry a distance."""
    return [form for form in forms if not form.errors and not form.is_removed
            and form.cleaned_data["path"] == path and form.stored["value"] is not None]


def _too_short(creepage, clearance):
    return (f"The creepage of {creepage * 1e3:g} mm is shorter than the clearance of "
            f"{clearance * 1e3:g} mm at the same place. A path along the surface is at least as "
            "long as the path through air: check which is which, and measure again.")
