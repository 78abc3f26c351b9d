"""Form fields that take a number with its unit as a person writes it, and give SI back."""
import re
from decimal import Decimal

from django import forms
from django.core.exceptions import ValidationError

from teardowns.forms.number_fields import own_mark, shown_text
from teardowns.reading.bounds import SIGNS
from teardowns.reading.quantity import MAX_LENGTH, QuantityError, read_quantity
from teardowns.reading.units import Scale, spellings_of

DIGITS = 12          # enough to read every float back as the same quantity, few enough to be read
MOST_DECIMALS = 6    # beyond, a time typed in seconds is shown in seconds again
PEAK_TO_PEAK = {"ripple_voltage"}      # of all others Vpp may be twice what is meant
_RANGE = re.compile(
    r"\s*([0-9][0-9.,]*\s*[A-Za-zµΩ°]*)\s*(?:-|–|—|−|\.\.|…|/|to)\s*([0-9][0-9.,]*\s*[^-–—/]*)"
)


def typed_text(value, unit, shown_in=""):
    """The text that, typed into the field, is read back as the same value: `15.2 µF`."""
    if value is None:
        return ""
    shown = shown_in or unit
    scale = Scale(0) if shown == "1" else spellings_of(unit)[shown]
    number = Decimal(f"{value:.{DIGITS}g}").scaleb(-scale.power)
    if scale.factor != 1.0:
        number = Decimal(f"{number / Decimal(scale.factor):.{DIGITS}g}")
    plain = f"{number:f}"
    if "." in plain:
        plain = plain.rstrip("0").rstrip(".")
    if scale.factor != 1.0 and len(plain.partition(".")[2]) > MOST_DECIMALS:
        return typed_text(value, unit)         # 40 s is no 0.666666666667 min
    return plain if shown == "1" else f"{plain} {shown}"


def bound_text(kind, limit, unit, shown_in=""):
    """The text that, typed into the field, is read back as the same limit: `> 500 MΩ`."""
    return f"{SIGNS[kind]} {typed_text(limit, unit, shown_in)}"


def read_field(text, unit, shown_in="", **takes):
    """`read_quantity` with the field's own unit for a bare number, and a form's error."""
    default_unit = shown_in or (None if unit == "1" else unit)
    try:
        return read_quantity(text, unit, default_unit=default_unit, decimal_mark=own_mark(),
                             **takes)
    except QuantityError as error:
        raise ValidationError(error.message) from error


class QuantityField(forms.CharField):
    """One quantity as text; cleans to its value in SI, or None. Takes no ± unless told to, and no
    limit: with `takes_bounds` its reading may be one."""

    takes_numbers = True

    def __init__(self, unit, shown_in="", *, low=0.0, with_spread=False, takes_bounds=False,
                 peak_to_peak=False, **options):
        self.unit, self.shown_in, self.low = unit, shown_in, low
        self.with_spread, self.takes_bounds = with_spread or takes_bounds, takes_bounds
        self.peak_to_peak = peak_to_peak
        # No `max_length`: a browser would cut what is pasted, and the reader says it is too long.
        super().__init__(required=False, **options)

    def clean(self, value):
        text = super().clean(value)
        if not text:
            return None
        reading = self.read(text)
        if reading.value < self.low:
            raise ValidationError(f"“{text}” is below {self.print(self.low)}: check the sign.")
        if self.with_spread:
            return reading
        if reading.uncertainty is not None:
            raise ValidationError("This field keeps one value: leave the ± part out, or note it.")
        return reading.value

    def read(self, text):
        return read_field(text, self.unit, self.shown_in, takes_bounds=self.takes_bounds,
                          takes_spread=self.with_spread, peak_to_peak=self.peak_to_peak)

    def print(self, value):
        return typed_text(value, self.unit, self.shown_in)


class RangeField(forms.CharField):
    """`100-240 V` or `5 V`; cleans to (low, high) in SI, both None when empty."""

    takes_numbers = True

    def __init__(self, unit, **options):
        self.unit = unit
        super().__init__(required=False, **options)

    def clean(self, value):
        text = super().clean(value)
        if not text:
            return None, None
        ends = _RANGE.fullmatch(text) if len(text) <= MAX_LENGTH else None
        sides = ends.groups() if ends else (text, text)
        low, high = (read_field(side, self.unit, takes_spread=False).value for side in sides)
        if low > high:
            raise ValidationError(f"“{text}” runs downwards: write the lower end first.")
        return low, high

    def print(self, low, high):
        if low is None or high is None or low == high:
            return typed_text(high if low is None else low, self.unit)
        return f"{typed_text(low, self.unit).removesuffix(f' {self.unit}')}-" + typed_text(
            high, self.unit
        )


def as_shown(fields, texts):
    """Stored texts of a form; the numbers among them as the reader would type them."""
    return {name: shown_text(text) if isinstance(text, str) and name in fields
            and getattr(fields[name], "takes_numbers", False) else text
            for name, text in texts.items()}
