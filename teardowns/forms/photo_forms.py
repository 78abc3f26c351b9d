"""What is said of a photo, drawn on it and read off it: one form each, all of them on one page.

Every drawing is a field of points, which a script fills from the picture and a person can type.
"""
from __future__ import annotations

from django import forms
from django.core.exceptions import ValidationError

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.number_fields import NumberField
from teardowns.imaging.known_lengths import BESIDE, BY_CODE, ON_UNIT
from teardowns.imaging.points import SHAPES, checked, parsed_points
from teardowns.models import Stage

LEGEND_HINT = "Printed at the ends of the colour scale in the picture. Left empty: it has none."
UNCERTAIN = "The uncertainty of an emissivity lies between 0 and 0.5."
MM = 1e-3
TYPED = "typed"
SHAPE_NAMES = {"point": "point", "line": "line", "path": "path, open", "polygon": "area",
               "box": "box"}
POINTS_HINT = "x,y in pixels, a space between points. Drawing on the picture fills this in."


class PhotoForm(forms.Form):
    """A form whose ids carry its name, so that several stand on one page."""

    name = ""
    MORE: tuple[str, ...] = ()           # fields that are folded away
    MORE_TITLE = ""
    NOTE = ""

    def __init__(self, data=None, *, photo=None, **rest):
        self.photo = photo
        super().__init__(data, auto_id=f"{self.name}-%s", use_required_attribute=False, **rest)

    @property
    def shown(self):
        return [self[name] for name, field in self.fields.items()
                if not field.widget.is_hidden and name not in self.MORE]

    @property
    def more(self):
        return [self[name] for name in self.MORE]

    @property
    def is_unfolded(self):
        """Whether something was typed where it would be folded away."""
        return any(self[name].errors or self[name].value() not in (None, "", False, initial)
                   for name in self.MORE for initial in [self.fields[name].initial])

    @property
    def hidden(self):
        return [self[name] for name, field in self.fields.items() if field.widget.is_hidden]


class DescribeForm(PhotoForm):
    name = "describe"
    stage = forms.ChoiceField(label="Stage", choices=Stage)
    caption = forms.CharField(label="Caption", max_length=300, required=False,
                              help_text="What it shows and why it matters.")
    alt = forms.CharField(label="In words, for who cannot see it", max_length=300, required=False,
                          help_text="What is to be seen, such as “solder side, a slot under the "
                                    "optocoupler”.")
    version = forms.IntegerField(widget=forms.HiddenInput, min_value=1)


class TakeDownForm(PhotoForm):
    name = "take-down"
    reason = forms.CharField(label="Why it is taken down", max_length=300, error_messages={
        "required": "Say why, for the log: it shows a person, it is blurred, it is another unit."})


class DrawnForm(PhotoForm):
    """A form with points, which have to make its shape inside the picture."""

    SHAPES: tuple[str, ...] = ()
    points = forms.CharField(label="Points", max_length=20_000, help_text=POINTS_HINT,
                             error_messages={"required": "Draw on the picture first, or write "
                                                         "points such as 120,80 460,82."})

    def __init__(self, data=None, **rest):
        super().__init__(data, **rest)
        if "shape" in self.fields:
            self.fields["shape"].choices = [(shape, SHAPE_NAMES[shape]) for shape in self.SHAPES]
        # The picture comes first, then what is said of it.
        first = [name for name in ("shape", "points") if name in self.fields]
        self.order_fields([*first, *self.fields])

    def shape_drawn(self):
        return self.cleaned_data.get("shape") or self.SHAPES[-1]

    def clean_points(self):
        return self.points_of(self.shape_drawn(), self.cleaned_data["points"])

    def points_of(self, shape, text):
        """What was typed or drawn, if it makes this shape inside the picture."""
        try:
            return checked(shape, parsed_points(text), self.photo.width, self.photo.height)
        except ValueError as error:
            raise ValidationError(str(error)) from error


class MarkForm(DrawnForm):
    name = "mark"
    SHAPES = SHAPES
    shape = forms.ChoiceField(label="Shape", initial="box")
    label = forms.CharField(label="Label", max_length=200, required=False,
                            help_text="Short, such as “C1” or “slot”.")
    shows = forms.ChoiceField(label="Shows", required=False)
    key = forms.CharField(widget=forms.HiddenInput, required=False, max_length=64)
    version = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)

    def __init__(self, data=None, *, named=(), **rest):
        super().__init__(data, **rest)
        self.fields["shows"].choices = [("", "nothing in particular"), *named]

    def clean(self):
        cleaned = super().clean()
        if not self.errors and not (cleaned["label"] or cleaned["shows"]):
            self.add_error("label", "Say what the mark shows: give it a label, or choose an entry "
                                    "below.")
        return cleaned


class LengthField(NumberField):
    """Millimetres as people type them; metres afterwards."""

    units = ("mm",)

    def __init__(self, **rest):
        super().__init__(min_value=0.0, max_value=2000.0, error_messages={
                             "invalid": "Write a number of millimetres, such as 25.4.",
                             "max_value": "More than 2 metres: is that in millimetres?",
                             "min_value": "A length is not negative."}, **rest)

    def clean(self, value):
        length = super().clean(value)
        return None if length is None else length * MM


class ScaleForm(DrawnForm):
    """A known length, chosen or typed: what is typed counts before what is chosen."""

    SIDES: tuple[str, ...] = ()
    known = forms.ChoiceField(label="What it is", required=False)
    length_u = LengthField(label="± U in mm", required=False,
                           help_text="Half of what the length may be off, 95 %. Left empty: the "
                                     "tolerance of what was chosen.")
    plane = forms.CharField(label="Where it lies", max_length=120, required=False,
                            help_text="Such as “on the board”. Only what lies in this plane can be "
                                      "measured with it.")

    def __init__(self, data=None, **rest):
        super().__init__(data, **rest)
        self.fields["known"].choices = [
            (TYPED, "another length, typed below"),
            *((title, [(each.code, f"{each.name}, {_size(each)}") for each in group
                       if len(each.lengths) == len(self.SIDES)])
              for title, group in (("Beside the unit", BESIDE), ("Of the unit itself", ON_UNIT)))]

    def clean(self):
        cleaned = super().clean()
        known = BY_CODE.get(cleaned.get("known", ""))
        typed = [cleaned.get(side) for side in self.SIDES]
        if not any(side in self.errors for side in self.SIDES):
            self._ask_for_what_is_missing(known, typed)
        cleaned["lengths"] = typed if all(typed) else list(known.lengths) if known else []
        u = cleaned.get("length_u")
        is_chosen = known is not None and not all(typed)
        cleaned["u"] = u / 2.0 if u is not None else known.uncertainty if is_chosen else None
        cleaned["code"] = known.code if is_chosen else ""
        return cleaned

    def _ask_for_what_is_missing(self, known, typed):
        if not known and not all(typed):
            self.add_error(self.SIDES[0], "Choose what the drawing lies on, or write its length "
                                          "in millimetres.")
        elif known and any(typed) and not all(typed):
            missing = next(side for side, length in zip(self.SIDES, typed, strict=True)
                           if not length)
            self.add_error(missing, "Write both sides in millimetres, or neither: then what was "
                                    "chosen counts.")


class ScaleLineForm(ScaleForm):
    name, SHAPES, SIDES = "scale-line", ("line",), ("length",)
    length = LengthField(label="Length in mm", required=False)
    field_order = ("points", "known", "length", "length_u", "plane")


class ScaleCornersForm(ScaleForm):
    name, SHAPES, SIDES = "scale-corners", ("polygon",), ("width", "height")
    width = LengthField(label="Width in mm", required=False,
                        help_text="Between the first and the second corner.")
    height = LengthField(label="Height in mm", required=False)
    field_order = ("points", "known", "width", "height", "length_u", "plane")

    def clean_points(self):
        points = super().clean_points()
        if len(points) != 4:
            raise ValidationError("A rectangle has four corners: mark them in turn, the first two "
                                  f"along its width; {len(points)} given.")
        return points


class CelsiusField(NumberField):
    units = ("°C", "K")

    def __init__(self, **rest):
        super().__init__(
            error_messages={"invalid": "Write a number of °C, such as 71.5.",
                            "min_value": "Colder than this site knows: check the sign.",
                            "max_value": "Hotter than any charger: check the number."}, **rest)


class EmissivityField(NumberField):
    def __init__(self, **rest):
        range_ = "An emissivity lies between 0.05 and 1."
        super().__init__(min_value=0.05, max_value=1.0, error_messages={
            "min_value": range_, "max_value": range_,
            "invalid": "Write a number between 0.05 and 1, such as 0.95."}, **rest)


class TemperatureForm(DrawnForm):
    """A spot or an area of a thermal picture, set right for the surface."""

    name, SHAPES = "temperature", ("point", "box")
    shape = forms.ChoiceField(label="Shape", initial="point")
    what = forms.ChoiceField(label="What it is")
    reading = CelsiusField(label="Shown there, °C", min_value=-40, max_value=400)
    reading_u = CelsiusField(label="± U of the camera, K", min_value=0.1, max_value=50, initial=2,
                             help_text="95 %, as its data sheet says; 2 K or 2 % is usual.")
    set_emissivity = EmissivityField(label="Emissivity that the camera was set to", initial=1)
    emissivity = EmissivityField(
        label="Emissivity of the surface", initial=0.95,
        help_text="Tape 0.95, plastic 0.92. Bare metal mirrors the room: put tape on it first.")
    emissivity_u = NumberField(
        label="± U of it", min_value=0.0, max_value=0.5, initial=0.04, help_text="95 %.",
        error_messages={
            "min_value": UNCERTAIN, "max_value": UNCERTAIN,
            "invalid": "Write a number between 0 and 0.5, such as 0.04."})
    background = CelsiusField(label="What the surface mirrors, °C", min_value=-40, max_value=400,
                              initial=23, help_text="As a rule the room.")
    legend_low = CelsiusField(label="Lowest temperature on the legend, °C", required=False,
                              min_value=-40, max_value=400, help_text=LEGEND_HINT)
    legend_high = CelsiusField(label="Highest temperature on the legend, °C", required=False,
                               min_value=-40, max_value=400)

    def __init__(self, data=None, **rest):
        super().__init__(data, **rest)
        self.fields["what"].choices = [(each.code, each.label) for each in surfaces()]

    def clean(self):
        cleaned = super().clean()
        low, high = cleaned.get("legend_low"), cleaned.get("legend_high")
        if {"legend_low", "legend_high"} & set(self.errors):
            return cleaned
        if (low is None) != (high is None):
            self.add_error("legend_low" if low is None else "legend_high",
                           "Write both ends of the legend, or neither where none is printed.")
        elif low is not None and low >= high:
            self.add_error("legend_high", "The highest temperature on the legend must lie above "
                                          "the lowest: check which is which.")
        cleaned["legend"] = None if low is None else (low, high)
        return cleaned


class CoverForm(DrawnForm):
    name, SHAPES = "cover", ("box",)
    reason = forms.CharField(label="What is covered", max_length=200, error_messages={
        "required": "Say what is covered, such as “address on the parcel label”."})

    def box(self):
        """x, y, width, height of the region. [px]"""
        (left, top), (right, bottom) = self.cleaned_data["points"]
        return min(left, right), min(top, bottom), abs(right - left), abs(bottom - top)


def surfaces():
    """Temperatures of a place on the unit, which a camera can see."""
    return [each for code, each in QUANTITIES.items() if each.unit == "°C"
            and code.endswith("_temperature") and code != "ambient_temperature"]


def _size(known):
    return " × ".join(f"{1e3 * length:g} mm" for length in known.lengths)
