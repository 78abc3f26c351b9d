"""Live pins while the plug mates."""

import pytest

from tests.engine.rules.safety.asked import grade_of


# EN 50075 and BS 1363-1: sleeves on live pins, none on an earth pin.
@pytest.mark.parametrize(
    "known, expected",
    [
        ({"plug": "europlug", "pins_sleeved": 1.0, "pin_touchable": 0.0}, "meets"),
        ({"plug": "europlug", "pins_sleeved": 0.0}, "falls short"),
        ({"plug": "bs1363", "earth_pin_sleeved": 1.0}, "falls short"),
        (
            {"plug": "bs1363", "pins_sleeved": 1.0, "pin_touchable": 0.0, "earth_pin_sleeved": 0.0},
            "meets",
        ),
        ({"plug": "nema1", "pin_touchable": 1.0}, "falls short"),
        ({"plug": "europlug", "pins_sleeved": 1.0}, "cannot tell"),
        ({"plug": "nema1", "pins_sleeved": 0.0}, "cannot tell"),
        ({}, None),
    ],
)
def test_grades(known, expected):
    assert grade_of("plug_live_parts", **known) == expected
