from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError
from django.utils.translation import override

from teardowns.forms.number_fields import AmountField, NumberField, WholeField, shown_text
from teardowns.forms.quantity_field import QuantityField


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(("text", "value"), [
    ("0,95", 0.95), ("0.95", 0.95), ("\u221240", -40.0), ("12", 12.0), ("1234,5", 1234.5),
    ("", None)])
def test_a_number_has_a_point_or_a_comma(language, text, value):
    with override(language):
        assert NumberField(required=False).clean(text) == value


# Whose decimal mark it is reads it so; to the other it may be a thousand and something.
@pytest.mark.parametrize(("language", "own", "asked"), [("en", "1.234", "1,234"),
                                                        ("de", "1,234", "1.234")])
@pytest.mark.parametrize("field", [NumberField(), QuantityField("V")])
def test_what_may_be_in_thousands_is_asked_about(field, language, own, asked):
    unit = " V" if isinstance(field, QuantityField) else ""
    with override(language):
        assert field.clean(own + unit) == 1.234
        with pytest.raises(ValidationError, match=f"“{asked}” can be read as 1234 or as {own}"):
            field.clean(asked + unit)


@pytest.mark.parametrize("text", ["1.000", "1,000", "12.345.678"])
def test_a_whole_number_has_no_marks_inside(text):
    with pytest.raises(ValidationError, match="without a mark between thousands"):
        WholeField().clean(text)


def test_a_whole_number_is_read():
    assert WholeField().clean(" 1000 ") == 1000


def test_what_is_stored_is_shown_as_its_reader_would_type_it():
    with override("de"):
        assert shown_text("15.2 µF ± 0.3 µF") == "15,2 µF ± 0,3 µF"
        assert NumberField().prepare_value(0.95) == "0,95"
        assert AmountField().prepare_value(Decimal("12.90")) == "12,90"
    assert NumberField().prepare_value(0.95) == "0.95"


@pytest.mark.parametrize("text", ["15,2 µF", "1,234 µF", "0,25 µF"])
def test_what_is_shown_is_read_back_as_the_same(text):
    field = QuantityField("F", "µF")
    with override("de"):
        assert shown_text(field.print(field.clean(text))) == text


def test_an_amount_keeps_its_decimals():
    assert AmountField().clean("12,90") == Decimal("12.90")


def test_what_was_typed_stays_as_it_was():
    with override("de"):
        assert NumberField().prepare_value("0.95x") == "0.95x"
