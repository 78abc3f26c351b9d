"""The value with its ± that quantity entries, load tests and distances share."""
import re

from django import forms
from django.core.exceptions import ValidationError

from teardowns.forms.quantity_field import QuantityField, typed_text
from teardowns.models import UncertaintyKind

KINDS = [
    (UncertaintyKind.INTERVAL.value, "± U, 95 %"),
    (UncertaintyKind.STANDARD.value, "u, k = 1"),
    (UncertaintyKind.TOLERANCE.value, "± limit"),
]
_NUMBER = re.compile(r"[0-9]*[.,]?[0-9]+")


def value_field(unit="1", shown_in="", **takes):
    return QuantityField(unit, shown_in, low=float("-inf"), with_spread=True, label="Value",
                         **takes)


class SpreadField(forms.CharField):
    takes_numbers = True


def spread_field():
    return SpreadField(required=False, label="± U")


def spread_kind_field():
    return forms.ChoiceField(
        choices=KINDS, initial=UncertaintyKind.INTERVAL, label="± means", required=False
    )


def spread_values(form, cleaned):
    """`value`, `uncertainty`, `uncertainty_kind` of the row; adds errors to the form's fields."""
    reading, text = cleaned.get("value"), cleaned.get("spread", "")
    kind = cleaned.get("spread_kind") or UncertaintyKind.INTERVAL.value
    if reading is None:
        if text:
            form.add_error("spread", "There is a ± without a value: write the value, or clear ± U.")
        return {"value": None, "uncertainty": None, "uncertainty_kind": ""}
    uncertainty = reading.uncertainty
    if uncertainty is not None and reading.uncertainty_kind != "interval":
        kind = reading.uncertainty_kind
    if text:
        uncertainty = _typed_spread(form, reading, text)
    check_spread(form, reading.value, uncertainty, text)
    return {"value": reading.value, "uncertainty": uncertainty,
            "uncertainty_kind": kind if uncertainty is not None else ""}


def _typed_spread(form, reading, text):
    field = form.fields["value"]
    if reading.uncertainty is not None:
        form.add_error("spread", "The uncertainty is stated twice: keep one of the two.")
        return None
    try:
        both = f"{reading.text} ± {text.lstrip('±').strip()}"
        return field.read(both).uncertainty
    except ValidationError as error:
        form.add_error("spread", error)
        return None


def check_spread(form, value, uncertainty, text):
    """An uncertainty above the value is nearly always a slip: names the two likely repairs."""
    field = form.fields["value"]
    if uncertainty is None or field.unit == "°C" or not 0.0 < abs(value) < uncertainty:
        return
    shown = typed_text(uncertainty, field.unit, field.shown_in)
    form.add_error("spread" if text else "value",
                   f"± {shown} is larger than the value. {_repairs(value, uncertainty, field)}")


def _repairs(value, uncertainty, field):
    number = _NUMBER.match(typed_text(uncertainty, field.unit, field.shown_in))[0]
    slipped = uncertainty
    while slipped > abs(value) / 5:
        slipped /= 10
    shifted = typed_text(slipped, field.unit, field.shown_in)
    if float(number) < 100:
        return f"If you meant {number} %, write “{number} %”; if the decimal mark slipped, " \
               f"write for example “{shifted}”."
    return f"If the decimal mark slipped, write for example “{shifted}”; a percentage needs its %."


def spread_texts(row, unit, shown_in):
    """What the three fields show of a stored row."""
    return {
        "value": typed_text(row.value, unit, shown_in),
        "spread": typed_text(row.uncertainty, unit, shown_in),
        "spread_kind": row.uncertainty_kind or UncertaintyKind.INTERVAL.value,
    }
