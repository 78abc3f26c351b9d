import numpy as np
import pytest

from teardowns.engine.rules.power.failed_power import failed_power
from teardowns.engine.verdicts import WORDS
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions

ID = "power/failed_power"
CLAIM = [(5.0, 2.0, NAN)]                 # 10 W
FAST = [(20.0, 2.25, NAN), (5.0, 3.0, NAN)]


def unit(power, mains=100.0, output=5.0, u=None):
    return [*WIDE, ("failed_power", power, 0.01 * power if u is None else u, mains, output)]


def moved(power):
    return weight(judge(unit(power), CLAIM), ID)


def test_the_load_is_the_value():
    assert failed_power(np.array([13.1]), np.array([1.0])).tolist() == [13.1]


def test_unknown_in_unknown_out():
    assert np.isnan(failed_power(np.array([NAN]), np.array([1.0])))[0]


def test_a_load_lost_below_the_claim_speaks_as_far_as_one_test_can():
    # One test in fifty is spoilt: odds of 0.02 : 1 at the lowest, p = 0.0196, 17 decibans.
    done = judge([*WIDE, ("failed_power", 13.1, 0.1, 100.0, 5.0)], [(5.0, 3.0, NAN)])
    assert done.judged.plausibility[0] == pytest.approx(0.0196, abs=0.001)
    assert weight(done, "power/failed_power") == pytest.approx(-17.0, abs=0.2)
    assert WORDS[done.judged.verdict[0]] == "implausible"


def test_a_second_load_that_was_lost_refutes():
    # Of several tests one in two hundred: odds of 0.005 : 1.
    lost = [("failed_power", watts, 0.1, 230.0, 5.0) for watts in (13.1, 13.4)]
    done = judge([*WIDE, *lost], [(5.0, 3.0, NAN)])
    assert done.judged.plausibility[0] == pytest.approx(0.005, abs=0.0005)
    assert WORDS[done.judged.verdict[0]] == "not attainable on this evidence"


def test_a_second_load_at_another_output_voltage_repeats_nothing():
    # 13 W lost at 5 V is no word on 20 V: the load lost at 20 V stands alone there.
    lost = [("failed_power", 13.1, 0.1, 230.0, 5.0), ("failed_power", 20.0, 0.1, 230.0, 20.0)]
    assert judge([*WIDE, *lost], FAST).judged.plausibility[0] > 0.015


def test_a_load_lost_far_above_the_claim_does_not():
    # 8 W claimed, lost at 13.1 W: all of 7.6 to 12.8 W stays possible.
    done = judge([*WIDE, ("failed_power", 13.1, 0.1, 100.0, 5.0)], [(5.0, 1.6, NAN)])
    assert done.judged.plausibility[0] > 0.4


def test_the_uncertainty_is_never_better_than_one_percent():
    found = line(failed_power, unit(10.0, u=0.0), CLAIM)["ends"]["low"]["u_ln"]
    assert found == pytest.approx(0.01)


# Plate 100 to 240 V; a load lost at V caps V_end ≤ 1.15·V, not stated: the low end only.
@pytest.mark.parametrize("mains, at", [
    (230.0, [8.0, 8.0]), (209.0, [8.0, 8.0]), (208.0, [8.0, None]), (100.0, [8.0, None]),
    (NAN, [8.0, None])])
def test_it_caps_its_mains_voltage_and_below(mains, at):
    assert ends(failed_power, unit(8.0, mains), CLAIM) == at


def test_no_load_that_was_lost_speaks_for_a_claim():
    assert max(moved(power) for power in (1.0, 5.0, 10.0, 12.0, 30.0, 300.0)) <= 1e-9


def test_a_load_lost_far_above_the_claim_says_nothing():
    assert abs(moved(30.0)) < 3 and abs(moved(300.0)) < 3


def test_lost_at_5_volts_says_nothing_of_20():
    done = judge(unit(13.1, 230.0), FAST)
    assert np.isnan(weight(done, ID, 0)) and weight(done, ID, 1) < -10


def test_lost_at_20_volts_caps_5_volts_too():
    done = judge(unit(13.1, 230.0, 20.0), FAST)
    assert weight(done, ID, 0) < -15 and weight(done, ID, 1) < -10


@pytest.mark.parametrize("claims, speaks", [(CLAIM, True), (FAST, False)])
def test_without_an_output_voltage_it_concerns_units_of_5_volts_alone(claims, speaks):
    found = line(failed_power, unit(8.0, 230.0, NAN), claims)
    assert found["used"] is speaks and ("says nothing" in found["why_not"]) is not speaks


@pytest.mark.parametrize("ports", [1, 2])
def test_several_outputs_are_a_reason_only_of_a_unit_that_has_them(ports):
    found = line(failed_power, unit(8.0, 230.0, NAN), FAST,
                 ports=[(f"C{n}", "usb_c") for n in range(ports)])
    assert ("one of several outputs" in found["why_not"]) is (ports > 1)


def test_the_lowest_load_counts():
    both = [*unit(9.0), *unit(8.0)[3:]]
    assert ends(failed_power, both, CLAIM)[0] == 8.0


def test_nothing_lost_is_no_line_and_the_load_that_was_held_asks():
    assert line(failed_power, WIDE, CLAIM) is None
    assert questions(failed_power, WIDE, CLAIM) == []
