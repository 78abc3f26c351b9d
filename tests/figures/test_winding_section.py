"""The winding cross-section."""
from itertools import pairwise

import pytest

from teardowns.figures.winding_section import (
    CHEEK,
    LARGEST,
    WIDTH,
    YOKE,
    Sheets,
    Wound,
    axial_width,
    fitting_scale,
    letter_of,
    winding_section,
)
from tests.figures.drawing import of_class, parsed, words

NO_MARGIN = (None, None)
PRIMARY = Wound("primary", 40, 0.25, 0.27, False, NO_MARGIN, False)
OUTPUT = Wound("secondary", 10, 0.6, 0.8, True, NO_MARGIN, False)
TAPE = Sheets(3, 0.025, "intact", False, False)


def drawn(*layers, weakest=None):
    return parsed(winding_section("A & B", "From the core", layers, weakest))


def height_of(node):
    """Of a horizontal line: how far above the core's leg it lies."""
    return -float(node.get("d").partition(" ")[2].partition("h")[0])


def test_it_is_as_wide_as_the_output_winding_in_one_layer_with_its_margins():
    # 10 turns of 0.8 mm and 2 mm of margin at one end: 10 mm
    wide = Wound("secondary", 10, 0.6, 0.8, True, (2.0, None), False)
    assert axial_width([PRIMARY, wide]) == pytest.approx(10.0)
    assert axial_width([PRIMARY, TAPE]) == pytest.approx(10.8)      # 40 · 0.27 mm
    assert axial_width([TAPE]) == 8.0


def test_wires_are_to_scale():
    # 8 mm of winding, cheeks and yokes: 400 units to 8 + 2 · 1.8 mm, 34.5 units per mm
    scale = min(WIDTH / (8.0 + 2 * (YOKE + CHEEK)), LARGEST)
    outermost = of_class(drawn(OUTPUT), "wd-ink")[0]
    assert float(outermost.get("stroke-dasharray").split()[1]) == pytest.approx(0.8 * scale, 1e-3)


def test_a_long_winding_is_laid_in_several_rows_that_hold_all_wires():
    # 8 mm hold 29 wires of 0.27 mm, so that 40 lie in two rows: 29 and 11
    lines = of_class(drawn(PRIMARY, OUTPUT), "wd-ink")[:2]
    counts = [round(float(line.get("d").split("h")[1])
                    / float(line.get("stroke-dasharray").split()[1])) + 1 for line in lines]
    assert counts == [29, 11] and height_of(lines[1]) > height_of(lines[0])


def test_layers_lie_outward_in_their_order_and_tape_can_be_counted():
    tree = drawn(PRIMARY, TAPE, OUTPUT)
    tape = [height_of(line) for line in of_class(tree, "wd-tape")]
    wires = [height_of(line) for line in of_class(tree, "wd-ink")]
    assert len(tape) == 3 and min(wires) < min(tape) and max(tape) < max(wires)
    assert all(b - a >= 3.9 for a, b in pairwise(tape))


@pytest.mark.parametrize("condition, cls", [("damaged", "wd-damaged"), ("melted", "wd-melted")])
def test_a_spoilt_layer_is_drawn_otherwise_and_its_letter_marked(condition, cls):
    tree = drawn(PRIMARY, Sheets(2, 0.06, condition, False, True))
    assert len(of_class(tree, cls)) == 2 and "B !" in words(tree)


@pytest.mark.parametrize("layer", [
    Sheets(None, None, "", False, True),
    Wound("primary", None, 0.25, 0.27, False, NO_MARGIN, False),
    Wound("secondary", 8, None, None, False, NO_MARGIN, False)])
def test_what_was_not_read_is_a_dotted_box(layer):
    tree = drawn(layer)
    assert len(of_class(tree, "wd-blank")) == 1 and not of_class(tree, "wd-wire")


def test_an_output_wire_with_more_than_enamel_is_a_double_ring():
    plain = Wound("secondary", 10, 0.6, 0.65, False, NO_MARGIN, False)
    rings = [len(of_class(drawn(wire), "wd-wire")) for wire in (PRIMARY, plain, OUTPUT)]
    assert rings[1:] == [3, 5]        # ring: two discs, with its dot three; a second ring: five


def test_margins_are_drawn_where_they_are_known():
    one = Wound("secondary", 10, 0.6, 0.8, True, (2.0, None), False)
    assert len(of_class(drawn(one), "wd-margin")) == 1
    assert not of_class(drawn(OUTPUT), "wd-margin")


def test_the_wall_of_the_bobbin_stands_for_the_usual_one_where_it_was_recorded():
    wall = Sheets(1, 0.9, "", True, False)
    assert len(of_class(drawn(wall, OUTPUT), "wd-wall")) == 1
    lifted, plain = (height_of(of_class(drawn(*layers), "wd-ink")[0])
                     for layers in ((wall, OUTPUT), (OUTPUT,)))
    assert lifted - plain == pytest.approx((0.9 - 0.5) * LARGEST, abs=6)


@pytest.mark.parametrize("sides, named", [
    ((0, 2), "least: A to C"), ((None, 0), "least: core to A"), ((2, None), "least: C to core")])
def test_the_least_insulated_neighbourhood_is_framed_and_named(sides, named):
    tree = drawn(PRIMARY, TAPE, OUTPUT, weakest=sides)
    assert named in words(tree) and len(of_class(tree, "wd-least")) == 2


def test_the_frame_reaches_from_one_winding_to_the_other():
    tree = drawn(PRIMARY, TAPE, OUTPUT, weakest=(0, 2))
    frame = of_class(tree, "wd-least")[0]
    top, height = -float(frame.get("y")), float(frame.get("height"))
    inside = [height_of(line) for line in of_class(tree, "wd-tape")]
    assert top - height < min(inside) and max(inside) < top and height == pytest.approx(15, abs=1)


def test_letters_stand_apart_however_thin_the_layers():
    tree = drawn(*[TAPE] * 9)
    places = [float(node.get("y")) for node in tree.iter("text")][:9]
    assert all(a - b >= 21.9 for a, b in pairwise(places))


def test_letters_go_on_after_z():
    assert [letter_of(place) for place in (0, 25, 26, 52)] == ["A", "Z", "AA", "BA"]


def test_it_has_a_name_and_a_description_and_no_inline_style():
    markup = winding_section("A & B", "From the core", [PRIMARY])
    assert "A &amp; B" in markup and "From the core" in markup and "style=" not in markup


def test_sections_that_share_a_scale_draw_a_millimetre_as_long():
    small = [Wound("primary", 20, .25, .3, False, (None, None), False)]          # 6 mm
    large = [Wound("primary", 40, .25, .3, False, (None, None), False)]          # 12 mm
    shared = min(map(fitting_scale, (small, large)))
    trees = [parsed(winding_section("T", "D", layers, scale=shared, key=key))
             for layers, key in ((small, "wd-a"), (large, "wd-b"))]
    rulers = {of_class(tree, "wd-ruler")[0].get("d") for tree in trees}
    assert len(rulers) == 1
    wires = [float(of_class(tree, "wd-wire")[0].get("stroke-dasharray").split()[1])
             for tree in trees]
    assert wires[0] == pytest.approx(wires[1], abs=0.01)          # the same wire, as thick


def test_the_core_of_a_small_section_is_as_thick_as_that_of_a_large_one():
    layers = [Wound("primary", 20, .25, .3, False, (None, None), False)]
    outline = of_class(parsed(winding_section("T", "D", layers, scale=20.0)), "wd-core")[0]
    # 6 mm at 20 units/mm are 120 of 400 units; 1.2 + 0.6 mm beside it are 36: (400 − 120)/2 − 36
    assert outline.get("d").startswith("M104 ")


def test_drawings_of_one_page_have_names_of_their_own():
    tree = parsed(winding_section("T", "D", [], key="wd-b"))
    assert tree.find("svg").get("aria-labelledby") == "wd-b-t wd-b-d"
    assert {node.get("id") for node in tree.iter()} >= {"wd-b-t", "wd-b-d"}
