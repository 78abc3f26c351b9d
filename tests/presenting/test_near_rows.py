import pytest

from teardowns.models import Unit
from teardowns.presenting.near_rows import near_rows
from teardowns.services.near_units import NearUnit
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def public(unit):
    unit.maker, unit.model = "Veltrice", "VQ-45"
    unit.save()
    published(unit)
    return unit


def why(unit, **shared):
    row, = near_rows([NearUnit(unit.pk, 1.0, **shared)], Unit.objects.published())
    return row.why


def test_each_likeness_is_a_reason_in_words(public):
    assert why(public, same_model=True, same_maker=True, has_marking=True) == (
        "the same model: VQ-45", "the same maker: Veltrice", "the marking is inside")


def test_ratings_are_counted_and_spelt_out(public):
    assert why(public, claims=("5v3a", "65w"), asked=4) == (
        "2 of 4 ratings of your text: 5 V 3 A, 65 W",)


def test_of_many_ratings_the_first_are_spelt_out(public):
    words, = why(public, claims=tuple(f"{volts}v1a" for volts in range(1, 9)), asked=8)
    assert words.startswith("8 of 8 ratings") and words.endswith("5 V 1 A, 6 V 1 A, …")


def test_a_unit_that_is_not_public_any_more_is_left_out(public):
    assert near_rows([NearUnit(public.pk + 1, 1.0)], Unit.objects.published()) == []
