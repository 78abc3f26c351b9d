import pytest
from django.core.exceptions import ValidationError
from hypothesis import given
from hypothesis import strategies as st

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.quantity_field import QuantityField, RangeField, typed_text

UNITS = sorted({(q.unit, q.shown_in) for q in QUANTITIES.values()})


@pytest.mark.parametrize("value, unit, shown_in, text", [
    (4.7e-6, "F", "µF", "4.7 µF"), (0.0723, "kg", "g", "72.3 g"), (0.00025, "m", "mm", "0.25 mm"),
    (1800.0, "s", "min", "30 min"), (40.0, "s", "min", "40 s"), (90.0, "s", "min", "1.5 min"),
    (0.82, "1", "", "0.82"), (0.05, "1", "%", "5 %"),
    (-5.0, "°C", "", "-5 °C"), (300.0, "V", "", "300 V"), (None, "V", "", ""),
])
def test_a_value_is_shown_in_the_unit_of_its_field(value, unit, shown_in, text):
    assert typed_text(value, unit, shown_in) == text


@given(st.sampled_from(UNITS), st.floats(1e-12, 1e12))
def test_what_a_field_shows_it_reads_back_as_the_same_value(units, value):
    field = QuantityField(*units)
    read = field.clean(typed_text(value, *units)[:80])
    assert read == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize("text", ["4.7 µF", "4u7", "4,7", "4.7u", "0.0047 mF"])
def test_a_field_takes_the_usual_spellings(text):
    assert QuantityField("F", "µF").clean(text) == pytest.approx(4.7e-6, rel=1e-12)


@pytest.mark.parametrize("text, remedy", [
    ("4.7 V", "F"), ("about 5", "say in the note"), ("-3 µF", "check the sign"),
    ("4.7 µF ± 0.2", "leave the ± part out"), ("4 to 5 µF", "one value is kept here"),
    ("9" * 10_000, "longer than 64"),
])
def test_what_it_cannot_keep_it_refuses_with_the_remedy(text, remedy):
    with pytest.raises(ValidationError, match=remedy):
        QuantityField("F", "µF").clean(text)


@pytest.mark.parametrize("text, ends", [
    ("100-240 V", (100.0, 240.0)), ("100 V – 240 V", (100.0, 240.0)), ("3.3 to 11", (3.3, 11.0)),
    ("5 V", (5.0, 5.0)), ("5", (5.0, 5.0)), ("", (None, None)),
])
def test_a_range_has_two_ends(text, ends):
    assert RangeField("V").clean(text) == ends


def test_a_range_that_runs_downwards_is_refused():
    with pytest.raises(ValidationError, match="lower end first"):
        RangeField("V").clean("240-100 V")


@pytest.mark.parametrize("ends, text", [((100.0, 240.0), "100-240 V"), ((5.0, 5.0), "5 V"),
                                        ((None, 5.0), "5 V"), ((None, None), "")])
def test_a_range_is_shown_as_it_is_typed(ends, text):
    assert RangeField("V").print(*ends) == text


@pytest.mark.parametrize("field", [QuantityField("F", "µF"), RangeField("V")])
def test_no_browser_cuts_what_is_pasted(field):
    assert "maxlength" not in field.widget.attrs
