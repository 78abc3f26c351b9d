"""Shorted output."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# IEC 62368-1, B.3: an opened fuse is no harm, flame is.
@pytest.mark.parametrize("known, expected", [
    ({"short_circuit_flame": 1.0}, "falls short"),
    ({"short_circuit_survived": 1.0}, "meets"),
    ({"short_circuit_flame": 0.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("short_circuit", **known) == expected


def test_flame_counts_though_it_was_called_harmless():
    assert grade_of("short_circuit", short_circuit_flame=1.0,
                    short_circuit_survived=1.0) == "falls short"
