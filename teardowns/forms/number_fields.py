"""Form fields of bare numbers, read as the reader's language writes them; never guessed."""
import re

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import get_language

from core.words.numbers import as_typed, decimal_mark
from teardowns.reading.quantity import QuantityError, refuse_thousands

_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:[.,][0-9]{3})+")


def own_mark():
    """The decimal mark of whoever is typing."""
    return decimal_mark(get_language() or "en")


def shown_text(text):
    """A number that is stored, with its unit, as its reader would type it."""
    return as_typed(text, get_language() or "en")


class _Typed(forms.Field):
    """As text: a field of numbers would lose what the browser's own language does not write."""

    widget = forms.TextInput
    mode = "decimal"

    def widget_attrs(self, widget):
        return super().widget_attrs(widget) | {"inputmode": self.mode, "class": "num"}


class _WithDecimals(_Typed):
    """A point or a comma before decimals, a real minus, and perhaps one of `units` behind."""

    takes_numbers = True
    units: tuple[str, ...] = ()

    def to_python(self, value):
        text = "" if value is None else str(value).strip()
        for unit in self.units:
            text = text.removesuffix(unit).strip()
        try:
            refuse_thousands(text, own_mark())
        except QuantityError as error:
            raise ValidationError(error.message) from error
        return super().to_python(text.replace(",", ".").replace("−", "-"))

    def prepare_value(self, value):
        """What was typed stays as it is; a stored number is written as its reader would."""
        if value is None or isinstance(value, str):
            return value
        return shown_text(f"{value:.12g}" if isinstance(value, float) else str(value))


class NumberField(_WithDecimals, forms.FloatField):
    pass


class AmountField(_WithDecimals, forms.DecimalField):
    """A sum of money; its currency is a field of its own, and may stand behind it here as well."""

    units = ("€", "£", "$", "¥", "EUR", "GBP", "USD", "CHF")


class WholeField(_Typed, forms.IntegerField):
    """A whole number: “1.000” is a thousand to some and one to others."""

    mode = "numeric"

    def to_python(self, value):
        if isinstance(value, str) and _GROUPED.fullmatch(value.strip()):
            whole = re.sub("[.,]", "", value.strip())
            raise ValidationError(f"“{value.strip()}” is not read as a whole number: write {whole} "
                                  "without a mark between thousands, if that is meant.")
        return super().to_python(value)
