"""Bands of plug sizes."""
import numpy as np
import pytest

from teardowns.engine.requirements.plugs import SIZES, band


def test_a_band_by_plug_and_size():
    low, high = band(np.array(["europlug", "nema1", "schuko"]),
                     np.array(["pin_diameter", "pin_spacing", "pin_diameter"]))
    np.testing.assert_allclose(low, [3.9e-3, 12.4e-3, float("nan")])
    np.testing.assert_allclose(high, [4.1e-3, 13.0e-3, float("nan")])


def test_every_band_has_room():
    assert all(least < most for _, _, least, most in SIZES.rows)


# EN 50075: 4.0 mm, 19 mm, 18.6 mm at the face, 17.5 mm at the tips, body 35.3 × 13.7 mm. BS 1363:
# 6.35 × 4.0 mm, earth 8.0 × 4.0 mm, length 17.7 mm, earth 22.3 or 22.7 mm, 22.2 mm apart. NEMA
# 1-15P: 6.35 and 7.9 mm wide, 1.5 mm thick, 12.7 mm apart. Articles and a plug museum.
@pytest.mark.parametrize("plug, sizes", [
    ("europlug", {"pin_diameter": 4.0, "pin_length": 19.0, "pin_spacing": 18.6,
                  "pin_spacing_tip": 17.5, "plug_body_width": 35.3, "plug_body_height": 13.7}),
    ("bs1363", {"pin_width": 6.35, "pin_thickness": 4.0, "earth_pin_width": 8.0,
                "earth_pin_thickness": 4.0, "pin_length": 17.7, "pin_spacing": 22.2}),
    ("bs1363", {"earth_pin_length": 22.3}), ("bs1363", {"earth_pin_length": 22.7}),
    ("nema1", {"pin_width": 6.35, "neutral_pin_width": 7.9, "pin_thickness": 1.5,
               "pin_spacing": 12.7})])
def test_nominal_sizes_lie_within_their_bands(plug, sizes):
    low, high = band(np.full(len(sizes), plug), np.array(list(sizes)))
    nominal = 1e-3 * np.array(list(sizes.values()))
    assert ((low <= nominal) & (nominal <= high)).all()
