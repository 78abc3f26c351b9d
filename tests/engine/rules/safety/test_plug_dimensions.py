"""Plug sizes."""

import pytest

from tests.engine.rules.safety.asked import grade_of


# EN 50075 by an encyclopaedia article and a plug museum: pin 4.0 mm, 4.8 mm is the 16 A size;
# BS 1363 pin 6.4 mm, edge 9.5 mm; NEMA blades 6.3 and 7.9 mm by a plug maker.
@pytest.mark.parametrize(
    "known, expected",
    [
        ({"plug": "europlug", "code": "pin_diameter", "size_u": 5e-05, "size": 0.004}, "meets"),
        (
            {"plug": "europlug", "code": "pin_diameter", "size_u": 5e-05, "size": 0.0048},
            "falls short",
        ),
        (
            {"plug": "europlug", "code": "pin_diameter", "size_u": 5e-05, "size": 0.00408},
            "cannot tell",
        ),
        ({"plug": "europlug", "code": "pin_length", "size_u": 5e-05, "size": 0.019}, "meets"),
        ({"plug": "bs1363", "code": "pin_width", "size": 0.00635, "size_u": 5e-05}, "meets"),
        (
            {"plug": "bs1363", "code": "pin_edge_distance", "size": 0.0098, "size_u": 0.0001},
            "meets",
        ),
        (
            {"plug": "bs1363", "code": "pin_edge_distance", "size": 0.006, "size_u": 0.0001},
            "falls short",
        ),
        ({"plug": "nema1", "code": "pin_width", "size": 0.0063, "size_u": 5e-05}, "meets"),
        ({"plug": "nema1", "code": "neutral_pin_width", "size": 0.0079, "size_u": 5e-05}, "meets"),
        (
            {"plug": "schuko", "code": "pin_diameter", "size": 0.0048, "size_u": 5e-05},
            "cannot tell",
        ),
        (
            {"plug": "europlug", "code": "plug_body_width", "size": 0.0353, "size_u": 0.0001},
            "meets",
        ),
    ],
)
def test_grades(known, expected):
    assert grade_of("plug_dimensions", **known) == expected


# Sizes of the same sources that are read by no case above, and an edge of exactly 9.5 mm.
@pytest.mark.parametrize("plug, code, size", [
    ("europlug", "plug_body_height", 0.0137), ("europlug", "pin_spacing", 0.0186),
    ("bs1363", "pin_width", 0.0064), ("bs1363", "pin_thickness", 0.0040),
    ("bs1363", "pin_length", 0.0177), ("bs1363", "pin_edge_distance", 0.0095)])
def test_sizes_as_published(plug, code, size):
    assert grade_of("plug_dimensions", plug=plug, code=code, size=size, size_u=0.0) == "meets"


def test_a_size_without_a_known_uncertainty_decides_nothing():
    assert grade_of("plug_dimensions", plug="europlug", code="pin_diameter",
                    size=0.0040) == "cannot tell"
