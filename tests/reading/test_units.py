import pytest

from teardowns.reading.quantity import read_quantity
from teardowns.reading.units import EXAMPLES, LADDERS, SPELLINGS, spellings_of


@pytest.mark.parametrize("unit", sorted(EXAMPLES))
def test_the_example_of_a_unit_can_be_read(unit):
    assert read_quantity(EXAMPLES[unit], unit).value > 0


@pytest.mark.parametrize("unit", sorted(LADDERS))
def test_every_printed_unit_can_be_read_back_with_the_same_size(unit):
    for step in LADDERS[unit]:
        scale = SPELLINGS[unit][step.symbol]
        assert (scale.power, scale.factor) == (step.power, step.factor)


@pytest.mark.parametrize("unit", sorted(LADDERS))
def test_a_printing_ladder_ascends(unit):
    thresholds = [step.threshold for step in LADDERS[unit]]
    assert thresholds == sorted(set(thresholds))


def test_an_unlisted_unit_accepts_its_own_code():
    assert list(spellings_of("K/W")) == ["K/W"]
