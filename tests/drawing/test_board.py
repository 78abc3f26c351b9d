import pytest

from teardowns.drawing.board import board_of, boxes_meet, half_gap, pads_of

from .units import NAMES, demo, document

OPENED = [name for name in NAMES if board_of(demo(name[:2]))]


def test_a_unit_without_recorded_parts_has_no_board():
    assert board_of(demo("37")) is None


@pytest.mark.parametrize("name", OPENED)
def test_parts_of_one_side_lie_on_the_board_and_not_on_each_other(name):
    board = board_of(demo(name[:2]))
    for below in (False, True):
        boxes = [p.box for p in board.parts if p.body.solder_side is below]
        for index, box in enumerate(boxes):
            assert box[0] >= 0 and box[1] >= 0 and box[3] <= board.width
            assert box[2] <= board.length + 1                   # a connector stands out a little
            assert not any(boxes_meet(box, other, 0.0) for other in boxes[:index])


@pytest.mark.parametrize("name", OPENED)
def test_parts_of_the_mains_side_lie_left_of_the_barrier_and_those_of_the_output_right(name):
    board = board_of(demo(name[:2]))
    for placed in board.parts:
        left, _, right, _ = placed.box
        assert placed.body.zone != "primary" or right < board.barrier
        assert placed.body.zone not in ("secondary", "port") or left > board.barrier


@pytest.mark.parametrize("name", OPENED)
def test_joints_of_both_circuits_keep_the_recorded_distance(name):
    board = board_of(demo(name[:2]))
    for placed in board.parts:
        for x, _, radius in pads_of(placed, board.pins):
            if placed.body.kind == "transformer":
                assert abs(x - board.barrier) - radius == pytest.approx(board.pins / 2)
            elif placed.body.zone != "barrier":
                assert abs(x - board.barrier) > max(
                    [0.0, *(lane.length / 2 for lane in board.lanes)])


def test_a_slot_has_the_recorded_size_and_lies_at_its_recorded_place():
    # Unit 09: a slot 1.2 mm wide and 12 mm long, crossed 4 mm from one of its ends.
    board = board_of(demo("09"))
    left, top, right, bottom = board.slot
    assert (right - left, bottom - top) == pytest.approx((1.2, 12.0))
    lane = next(lane for lane in board.lanes if lane.row["shape"] == "slot")
    assert min(lane.y - top, bottom - lane.y) == pytest.approx(4.0)


def test_pins_that_nobody_measured_lie_no_nearer_than_what_was_measured_on_the_board():
    # Unit 18: 2.1 mm on the board; nothing was measured between the transformer's pins.
    assert board_of(demo("18")).pins > 2.1


def test_copper_begins_beyond_every_recorded_distance():
    for name in OPENED:
        board = board_of(demo(name[:2]))
        assert all(half_gap(board) > lane.length / 2 for lane in board.lanes)


def test_a_part_that_was_looked_for_and_not_found_is_not_drawn():
    found = document(components=[
        {"key": "c", "role": "bulk_capacitor", "designator": "C1", "nominal": 1e-5},
        {"key": "f", "role": "fuse", "state": "not_found"}])
    assert [placed.body.row["key"] for placed in board_of(found).parts] == ["c"]
