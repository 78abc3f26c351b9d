import pytest

from teardowns.drawing.bodies import bodies_of, pin_distance

from .units import demo, document


def test_each_piece_of_a_row_is_a_body_with_its_own_name():
    names = [body.name for body in bodies_of(demo("01")) if body.row.get("role") == "rectifier"]
    assert names == ["D1", "D2", "D3", "D4"]


def test_a_can_whose_size_was_recorded_is_drawn_at_that_size():
    # Unit 01: C11, 8 mm in diameter.
    can = next(body for body in bodies_of(demo("01")) if body.name == "C11")
    assert (can.across, can.along) == pytest.approx((8.0, 8.0))


def test_a_can_that_is_too_tall_for_the_case_lies_down():
    # Unit 09: 56 µF for 400 V, about 30 mm tall, in a case 30 mm deep.
    can = next(body for body in bodies_of(demo("09")) if body.name == "C1")
    assert can.kind == "lying_can" and can.across > can.along


def test_a_transformer_is_as_wide_as_its_core():
    # EE13: 13 mm wide (IEC 63093 series, table of the engine).
    body = next(body for body in bodies_of(demo("01")) if body.kind == "transformer")
    assert body.along == pytest.approx(13.0)


def test_a_converter_of_a_port_is_a_chip_below_and_a_coil_above():
    kinds = {body.name: (body.kind, body.solder_side) for body in bodies_of(demo("12"))
             if body.row.get("role") == "port_converter"}
    assert kinds == {"U4": ("chip", True), "L2": ("coil", False),
                     "U5": ("chip", True), "L3": ("coil", False)}


def test_ballast_is_no_part_of_the_board():
    assert not any(body.row.get("role") == "ballast" for body in bodies_of(demo("26")))


def test_the_distance_of_the_transformer_s_pins_is_the_recorded_one():
    assert pin_distance(demo("09")) == pytest.approx(8.5)


def test_a_part_of_unknown_kind_is_a_plain_block():
    unit = document(components=[{"key": "x", "role": "other", "designator": "X1"}])
    assert bodies_of(unit)[0].kind == "block"
