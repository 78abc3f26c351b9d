"""The way round a slot on a picture: ten pixels a millimetre, seen square by four corners."""
import numpy as np
import pytest

from teardowns.imaging.measuring import measure
from teardowns.imaging.scales import four_corners
from teardowns.imaging.slot_reading import Slot, measure_round_slot
from teardowns.imaging.slots import SlotError

SIZE, MM = (400, 300), 1e-3
SCALE = four_corners(((100, 100), (300, 100), (300, 200), (100, 200)), 20 * MM, 10 * MM, 0.0)


def upright(width, left=195.0):
    """A slot of 10 mm, `width` px wide; corners clockwise from the top left."""
    return ((left, 100.0), (left + width, 100.0), (left + width, 200.0), (left, 200.0))


def read(ends=((170.0, 130.0), (230.0, 130.0)), corners=None, narrowest=1.0, click_u=0.3, **slot):
    return measure_round_slot(SCALE, ends, Slot(corners or upright(12.0), **slot), narrowest * MM,
                              click_u, size=SIZE)


def test_it_goes_round_the_nearer_end():
    # Copper 2.5 mm left and 2.3 mm right of a slot 1.2 mm wide, 3 mm below its upper end:
    # √(2.5² + 3²) + 1.2 + √(2.3² + 3²) = 3.905 + 1.2 + 3.780 mm.
    found = read()
    assert found.reading.value == pytest.approx(8.885 * MM, abs=1e-6)
    assert found.way == ((170.0, 130.0), (195.0, 100.0), (207.0, 100.0), (230.0, 130.0))
    assert found.straight == pytest.approx(6 * MM) and found.width == pytest.approx(1.2 * MM)
    assert found.counts and found.is_sure


def test_a_slot_narrower_than_x_is_crossed_and_makes_nothing_longer():
    found = read(narrowest=1.5)
    assert found.reading.value == found.straight == pytest.approx(6 * MM)
    assert not found.counts and found.is_sure and len(found.way) == 2


def test_an_end_on_the_board_s_edge_is_no_way():
    # Round the lower end, 7 mm down: √(2.5² + 7²) + 1.2 + √(2.3² + 7²) = 16.001 mm.
    found = read(open_corners=(0, 1))
    assert found.reading.value == pytest.approx(16.001 * MM, abs=1e-6)
    assert found.recorded is not None and "start" not in found.recorded


def test_where_the_picture_does_not_decide_whether_it_counts_the_uncertainty_covers_both():
    # 1.2 mm wide by clicks of ± 3 px (0.3 mm) each: that is not told apart from X = 1 mm.
    found = read(click_u=3.0)
    assert found.counts and not found.is_sure
    low = found.reading.value - 2 * found.reading.uncertainty
    assert low < found.straight
    shares = {part.name: part.share for part in found.reading.budget}
    assert shares["Whether the slot counts"] == pytest.approx((8.885 - 6) / 2 * MM, abs=1e-6)


def test_its_budget_is_that_of_the_way_it_goes():
    """The same points as a path: first order along the shortest way."""
    found = read()
    path = measure(SCALE, found.way, 0.3, size=SIZE)
    assert found.reading.uncertainty == pytest.approx(path.uncertainty, rel=1e-6)
    assert sum(part.share ** 2 for part in found.reading.budget) == pytest.approx(
        found.reading.uncertainty ** 2)


def test_its_uncertainty_covers_what_clicks_do_to_it():
    draw, truth = np.random.default_rng(7), read().reading.value
    inside = 0
    for _ in range(300):
        ends, corners = (tuple(map(tuple, np.array(points) + draw.normal(0, 0.3, (n, 2))))
                         for points, n in ((((170.0, 130.0), (230.0, 130.0)), 2),
                                           (upright(12.0), 4)))
        found = read(ends, corners).reading
        inside += abs(found.value - truth) <= 2 * found.uncertainty
    # 95.4 % of a normal spread lie within 2 u; three standard deviations of a count of 300 less.
    assert inside >= 300 * 0.954 - 3 * (300 * 0.954 * 0.046) ** 0.5


def test_copper_closer_to_the_slot_than_a_click_may_be_off_can_be_read():
    assert read(ends=((194.0, 130.0), (208.0, 130.0)), click_u=3.0).reading.uncertainty > 0


@pytest.mark.parametrize("ends, more, told", [
    (((200.0, 130.0), (230.0, 130.0)), {}, "inside the slot"),
    (((170.0, 130.0), (230.0, 130.0)), {"open_corners": (0, 1, 2, 3)}, "No way leads round"),
    (((170.0, 130.0), (230.0, 130.0)),
     {"corners": ((195.0, 100.0), (207.0, 200.0), (207.0, 100.0), (195.0, 200.0))}, "cross"),
    (((170.0, 130.0), (230.0, 130.0)),
     {"corners": ((195.0, 100.0), (195.0, 150.0), (195.0, 200.0))}, "on one line"),
])
def test_a_slot_that_cannot_be_walked_round_is_told_why(ends, more, told):
    with pytest.raises(SlotError, match=told):
        read(ends, **more)
