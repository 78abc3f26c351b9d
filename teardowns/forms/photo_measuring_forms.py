"""What is measured on a photo: a length, the way round a slot, how far one click may be off."""
from __future__ import annotations

from django import forms
from django.core.exceptions import ValidationError

from core.whole_number import whole_number
from core.words.as_written import AsWritten
from core.words.said import said as in_words
from teardowns.engine.quantities import QUANTITIES
from teardowns.imaging.known_lengths import BY_CODE
from teardowns.imaging.points import checked_clicks, parsed_points
from teardowns.imaging.slot_reading import Slot
from teardowns.imaging.slots import MOST_CORNERS
from teardowns.imaging.surface_path import MOST_POINTS
from teardowns.models import Barrier, Path
from teardowns.reading.quantity import print_quantity
from teardowns.services.measure_photo import Drawn, Grooves

from .photo_forms import DrawnForm, LengthField

MEASURED_BARRIERS = ("PRI_SEC", "PRI_ENC", "L_N")
USUAL_DEGREE = "2"
WORDS = {"1": "1: sealed or clean", "2": "2: as in a home", "3": "3: conductive dirt or damp"}
DEGREES = [(degree, f"{words}; X = {1e3 * Grooves(int(degree)).narrowest:g} mm")
           for degree, words in WORDS.items()]
ONE_HEIGHT = ("Both ends must lie at one height. A length between two heights, such as from the "
              "board up to the top of a part, cannot be read off a picture: measure it with a "
              "caliper and write it on the bench sheet, or take a picture from the side with a "
              "ruler at both ends’ depth.")


class ClicksForm(DrawnForm):
    name, SHAPES = "clicks", ("clicks",)
    NOTE = ("Click one sharp point, such as the corner of a pad, three to thirty times; look away "
            "and aim anew each time. Their spread is then how far one of your clicks on this photo "
            "may be off.")


    def points_of(self, shape, text):
        try:
            return checked_clicks(parsed_points(text), self.photo.width, self.photo.height)
        except ValueError as error:
            raise ValidationError(str(error)) from error


class ReadForm(DrawnForm):
    """What is drawn is measured with one of the photo's scales."""

    SHAPES = ("line", "path")
    NOTE = ONE_HEIGHT
    MORE = ("surface", "slot", "open_corners", "pollution_degree", "clearance")
    MORE_TITLE = "Creepage: grooves, or round a slot"
    shape = forms.ChoiceField(label="Shape", initial="line")
    scale = forms.ChoiceField(label="Scale", error_messages={
        "required": "Set a scale on this photo first.",
        "invalid_choice": "Set a scale on this photo first, then choose it here."})
    off_plane = forms.BooleanField(label="Lies above or below the plane of the scale, both ends "
                                         "alike", required=False)
    surface = forms.BooleanField(label="Follows the surface: grooves narrower than X are bridged",
                                 required=False)
    slot = forms.CharField(
        label="Slot that it goes round", max_length=2_000, required=False,
        help_text="Corners of the slot, in turn, as x,y in pixels. Above, draw a line from copper "
                  "to copper; the shortest way round the slot is found. A slot narrower than X is "
                  "crossed.",
        widget=forms.TextInput(attrs={"data-shapes": "polygon", "data-name": "The slot"}))
    open_corners = forms.CharField(
        label="Its corners on the board’s edge", max_length=60, required=False,
        help_text="Their numbers in the order of drawing, such as 1 2. Left empty: the slot ends "
                  "inside the board.")
    pollution_degree = forms.ChoiceField(label="Pollution degree", choices=DEGREES,
                                         initial=USUAL_DEGREE, required=False)
    clearance = LengthField(
        label="Clearance required there, mm", required=False,
        help_text="Where less than 3 mm is required, a third of it counts as X, if that is less. "
                  "Left empty: the X of the pollution degree.")

    def __init__(self, data=None, *, scales=(), **rest):
        super().__init__(data, **rest)
        self.fields["scale"].choices = [(row.pk, scale_name(row)) for row in scales]

    def clean_slot(self):
        text = self.cleaned_data["slot"]
        return self.points_of("polygon", text) if text else ()

    def clean_open_corners(self):
        words = self.cleaned_data["open_corners"].replace(",", " ").split()
        corners = [whole_number(word) for word in words]
        if None in corners:
            raise ValidationError("Write the numbers of corners, such as 1 2.")
        return tuple(corner - 1 for corner in corners)

    def clean_clearance(self):
        clearance = self.cleaned_data["clearance"]
        if clearance == 0.0:
            raise ValidationError("A clearance of 0 mm is none: leave it empty.")
        return clearance

    def clean(self):
        cleaned = super().clean()
        if self.errors:
            return cleaned
        if cleaned["surface"] and len(cleaned["points"]) > MOST_POINTS:
            self.add_error("points", f"Follow the surface with at most {MOST_POINTS} points.")
        if cleaned["slot"]:
            self._check_slot(cleaned)
        elif cleaned["open_corners"]:
            self.add_error("slot", "Mark the corners of the slot too, or clear those on the edge.")
        return cleaned

    def _check_slot(self, cleaned):
        if cleaned["shape"] != "line":
            self.add_error("shape", "Round a slot, draw a line from copper to copper: the way is "
                                    "found for you.")
        if cleaned["surface"]:
            self.add_error("surface", "A distance follows the surface or goes round a slot: take "
                                      "this tick away, or clear the slot.")
        if len(cleaned["slot"]) > MOST_CORNERS:
            self.add_error("slot", f"Mark a slot with at most {MOST_CORNERS} corners.")
        if any(not 0 <= corner < len(cleaned["slot"]) for corner in cleaned["open_corners"]):
            self.add_error("open_corners", f"The slot has the corners 1 to {len(cleaned['slot'])}.")

    def drawn(self, scales, clicks):
        """clicks : repeated ones of the same person, or None"""
        said = self.cleaned_data
        slot = Slot(said["slot"], said["open_corners"]) if said["slot"] else None
        degree = int(said["pollution_degree"] or USUAL_DEGREE)
        return Drawn(
            said["shape"], said["points"], clicks=clicks, off_plane=said["off_plane"], slot=slot,
            scale=next(row for row in scales if str(row.pk) == said["scale"]),
            grooves=Grooves(degree, said["clearance"]) if slot or said["surface"] else None)


class MeasureForm(ReadForm):
    name = "measure"
    what = forms.ChoiceField(label="What it measures")
    place = forms.CharField(label="Place of a new distance", max_length=120, required=False,
                            help_text="Such as “under the optocoupler”.")
    field_order = ("shape", "points", "scale", "what", "place", "off_plane", *ReadForm.MORE)

    def __init__(self, data=None, *, rows=(), **rest):
        super().__init__(data, **rest)
        self.rows = {f"row:{row.key}": row for row in rows}
        self.fields["what"].choices = [
            ("A new distance", [(f"new:{barrier}:{path}", f"{Path(path).label}, "
                                 f"{Barrier(barrier).label}") for barrier in MEASURED_BARRIERS
                                for path in Path.values]),
            ("A distance recorded already",
             [(code, _named(row)) for code, row in self.rows.items()]),
            ("A size", [(f"size:{each.code}", each.label) for each in sizes()])]

    def clean(self):
        cleaned = super().clean()
        what = cleaned.get("what", "")
        if what.startswith("new:") and not cleaned.get("place"):
            self.add_error("place", "Say where the distance lies, so that a reviewer finds it.")
        is_surface = what.endswith(":creepage") or \
            what in self.rows and self.rows[what].path == Path.CREEPAGE
        if cleaned.get("surface") and what and not is_surface:
            self.add_error("surface", "Only a creepage distance follows the surface: choose one, "
                                      "or take this tick away.")
        if cleaned.get("slot") and what and not is_surface:
            self.add_error("slot", "Only a creepage distance goes round a slot, air goes straight "
                                   "across: choose a creepage, or clear the slot.")
        return cleaned


def sizes():
    """Lengths that are a size of the unit, not a path across a barrier."""
    paths = set(Path.values)
    return [each for code, each in QUANTITIES.items() if each.unit == "m" and code not in paths
            and code != "rated_altitude"]


def scale_name(row):
    """ "card, 85.6 mm × 54 mm, on the board", the last as a person wrote it"""
    known = BY_CODE.get(row.known)
    lengths = " × ".join(print_quantity(length, "m", digits=4) for length in row.lengths)
    words = (in_words(known.name) if known else "", in_words(lengths), row.plane)
    return AsWritten(", ".join(filter(None, words)))


def _named(row):
    return AsWritten(f"{row.place}, {in_words(row.get_path_display())}")
