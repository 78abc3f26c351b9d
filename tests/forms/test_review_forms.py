"""What a reviewer writes becomes standard uncertainties and plain words."""
import pytest

from teardowns.forms.review_forms import SecondReadingForm
from teardowns.models import InsulationObservation, Measurement

MASS = Measurement(quantity="mass_total")


def reading(row=MASS, **typed):
    form = SecondReadingForm({"spread_kind": "interval"} | typed, row=row)
    assert form.is_valid(), form.errors
    return form.reading


@pytest.mark.parametrize(("kind", "u"), [
    # JCGM 100:2008: k = 2 for 95 %, 6.3.3; limits a, all values alike: a / √3, 4.3.7
    ("interval", 0.0006), ("standard", 0.0012), ("tolerance", 0.0012 / 3 ** 0.5)])
def test_the_stated_spread_becomes_one_standard_uncertainty(kind, u):
    found = reading(value="52.8", spread="1.2", spread_kind=kind)
    assert (found.value, found.uncertainty) == (pytest.approx(0.0528), pytest.approx(u))


def test_without_a_spread_the_uncertainty_is_not_known():
    assert reading(value="52.8 g").uncertainty is None


def test_a_distance_is_typed_in_millimetres():
    assert reading(InsulationObservation(), value="3.6").value == pytest.approx(0.0036)


def test_a_quantity_that_nobody_knows_takes_a_bare_number():
    assert reading(Measurement(quantity="of_another_edition"), value="12").value == 12.0
