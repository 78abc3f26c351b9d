"""Known lengths: each says where it is from, makes a scale, and fits what is known elsewhere."""
import numpy as np
import pytest

from teardowns.engine.requirements import plugs
from teardowns.imaging.known_lengths import BY_CODE, KNOWN_LENGTHS
from teardowns.imaging.scales import four_corners, two_points

MM = 1e-3
each = pytest.mark.parametrize("known", KNOWN_LENGTHS, ids=lambda known: known.code)


@each
def test_it_has_a_name_and_a_source_and_makes_a_scale(known):
    assert known.name and known.source and known.code.replace("_", "").isalnum()
    if len(known.lengths) == 1:
        scale = two_points([(0, 0), (500, 0)], *known.lengths, known.uncertainty)
    else:
        w, h = np.array(known.lengths) / max(known.lengths) * 500
        scale = four_corners([(0, 0), (w, 0), (w, h), (0, h)], *known.lengths, known.uncertainty)
    assert scale.length_u_stated and scale.metres_a_pixel == pytest.approx(max(known.lengths) / 500)


def test_codes_and_names_are_there_once():
    assert len(BY_CODE) == len(KNOWN_LENGTHS) == len({known.name for known in KNOWN_LENGTHS})


# As printed in: an archived page on paper sizes (ID-1), the EUR-Lex summary of coins, a journal's
# news on the Type-C plug, a forum on micro connectors, encyclopaedia articles on DIP (0.3 in) and
# the Europlug, a list of JEDEC names (SO-8: 1.27 mm a step). Standard-A and the rulers from memory.
@pytest.mark.parametrize("code, millimetres", [
    ("card", (85.60, 53.98)), ("coin_1_euro", (23.25,)), ("usb_c_opening", (8.34,)),
    ("usb_c_plug", (8.25,)), ("usb_micro_b_plug", (6.85,)), ("usb_a_plug", (12.0, 4.5)),
    ("europlug_spacing", (18.6,)), ("europlug_pin", (19.0,)),
    ("dip_row", (0.3 * 25.4,)), ("dip_4_pins", (3 * 2.54,)), ("so8_4_pins", (3 * 1.27,)),
    ("grid_1", (0.1 * 25.4,)), ("grid_10", (25.4,)), ("ruler_50", (50.0,))])
def test_nominal_lengths_are_those_printed_elsewhere(code, millimetres):
    assert BY_CODE[code].lengths == pytest.approx([length * MM for length in millimetres])


def test_limits_without_more_knowledge_are_rectangular():
    # GUM, 4.3.7: a/√3; 0.13 mm gives 0.0751 mm.
    assert BY_CODE["card"].uncertainty == pytest.approx(0.0751 * MM, rel=1e-3)


# Both tables speak of the same pins: what the engine accepts, and what a scale may be taken from.
@pytest.mark.parametrize("code, plug, size", [
    ("europlug_spacing", "europlug", "pin_spacing"), ("europlug_pin", "europlug", "pin_length"),
    ("bs1363_spacing", "bs1363", "pin_spacing"), ("bs1363_pin", "bs1363", "pin_width"),
    ("nema1_spacing", "nema1", "pin_spacing")])
def test_pins_are_as_the_engine_has_them(code, plug, size):
    low, high = next(row[2:] for row in plugs.SIZES.rows if row[:2] == (plug, size))
    known = BY_CODE[code]
    middle, half = known.lengths[0] / MM, known.tolerance / MM
    assert (low, high) == pytest.approx((middle - half, middle + half))
