"""Between which loads a unit's own power lies, and when a test says nothing of the whole unit."""
from math import isnan

import pytest

from teardowns.exchange.load_bounds import NoBounds, load_bounds
from tests.exchange.small import small
from tests.exchange.test_measured_capability import PORTS, held, lost


def bounds(*rows, **lists):
    return load_bounds(small(measurements=list(rows), **lists))


def test_the_highest_load_held_the_lowest_one_lost_and_the_mains_of_that_test():
    found = bounds(held(8.0), held(10.0), lost(14.0), lost(16.0))
    assert (found.held, found.lost, found.mains_voltage) == (10.0, 14.0, 230.0)


def test_one_end_alone_is_told_and_the_other_is_not_known():
    only_held, only_lost = bounds(held(10.0)), bounds(lost(14.0, mains_voltage=115.0))
    assert only_held.held == 10.0 and isnan(only_held.lost)
    assert isnan(only_lost.held) and (only_lost.lost, only_lost.mains_voltage) == (14.0, 115.0)


def test_ballast_takes_nothing_from_a_load_test():
    weighed = {"quantity": "mass_ballast", "value": 0.02}
    assert bounds(held(10.0), lost(14.0), weighed).held == 10.0


def test_a_load_lost_in_other_conditions_is_no_bound_of_the_one_held():
    assert isnan(bounds(held(10.0), lost(8.0, mains_voltage=115.0)).lost)


def test_of_several_ports_what_one_of_them_may_have_lost_alone_is_no_bound_of_the_unit():
    trip = lost(13.0)
    point = {"quantity": "overcurrent_point", "value": 2.4, "output_voltage": 5.0}
    for rows in ([trip], [point], [held(12.0, port="c1")]):
        with pytest.raises(NoBounds, match="single ports"):
            bounds(*rows, ports=PORTS)
    whole = bounds(held(40.0), lost(44.0), point, ports=PORTS)
    assert (whole.held, whole.lost) == (40.0, 44.0)


def test_a_load_lost_at_no_named_port_may_be_one_ports_own_trip():
    # 30 W and 12 W, 42 W in all: 33 W is where the first may let go by itself, 44 W is not.
    claims = [{"kind": "output", "power": 30.0, "port": "c1"}, {"kind": "total", "power": 42.0},
              {"kind": "output", "power": 12.0, "port": "a"}]
    assert isnan(bounds(held(20.0), lost(33.0), ports=PORTS, claims=claims).lost)
    assert bounds(held(20.0), lost(44.0), ports=PORTS, claims=claims).lost == 44.0
    together = lost(33.0) | {"all_ports": True}
    assert bounds(held(20.0), together, ports=PORTS, claims=claims).lost == 33.0
    assert bounds(together, ports=PORTS, claims=claims).lost == 33.0


@pytest.mark.parametrize("rows, words", [
    ([held(10.0), lost(9.0)], "held above one"),
    ([held(10.0, how="data_sheet")], "no load that was held"),
    ([], "no load that was held"),
])
def test_what_says_nothing_of_the_unit_is_refused_with_its_reason(rows, words):
    with pytest.raises(NoBounds, match=words):
        bounds(*rows)
