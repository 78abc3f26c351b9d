"""IEC world plugs list: 230 V for Europlug and BS 1363, 120 V for NEMA 1-15."""
import pytest

from teardowns.engine.outcome import CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.plug_and_range import plug_and_range
from tests.engine.make import NAN


@pytest.mark.parametrize("plug, mains, expected", [
    ("europlug", 240.0, CONSISTENT), ("europlug", 120.0, INCONSISTENT),
    ("bs1363", 220.0, CONSISTENT), ("nema1", 120.0, CONSISTENT), ("nema1", 240.0, CONSISTENT)])
def test_a_plug_beside_a_plate(plug, mains, expected):
    assert plug_and_range(plug, mains).outcome == expected


def test_what_says_nothing():
    assert plug_and_range("", 240.0) is None and plug_and_range("europlug", NAN) is None
