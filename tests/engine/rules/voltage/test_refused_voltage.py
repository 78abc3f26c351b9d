import numpy as np
import pytest

from teardowns.engine.rules.voltage.refused_voltage import refused_voltage
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions, value

ID = "voltage/refused_voltage"
CLAIMS = [(20.0, NAN, NAN, "usb_c"), (12.0, NAN, NAN, "usb_c"), (5.0, NAN, NAN, "usb_c")]
HIGHEST, TWELVE = 0, 1


def unit(voltage, *observations):
    return [*WIDE, ("refused_voltage", voltage, 0.02), *observations]


def test_within_five_percent_of_the_request_counts_as_given():
    # 0.95 · 20 V = 19 V
    assert refused_voltage(np.array([20.0]))[0] == pytest.approx(19.0)


def test_unknown_in_unknown_out():
    assert np.isnan(refused_voltage(np.array([NAN])))[0]


def test_a_refusal_refutes_the_claim_of_that_voltage():
    done = judge([*WIDE, ("refused_voltage", 9.0, 0.05)], [(9.0, NAN, NAN, "usb_a")])
    assert done.judged.plausibility_voltage[0] < 0.05


def test_a_refusal_of_12_volts_says_nothing_about_20():
    done = judge([*WIDE, ("refused_voltage", 12.0, 0.05)], [(20.0, NAN, NAN, "usb_c")])
    assert np.isnan(weight(done, "voltage/refused_voltage"))


@pytest.mark.parametrize("asked", [0.0, 9.0, 1e6])
def test_it_is_proportional_from_zero_on(asked):
    assert value(refused_voltage, asked) == pytest.approx(0.95 * asked)


def test_12_volts_not_given_speak_against_12_volts_alone():
    done = judge(unit(12.0), CLAIMS)
    assert weight(done, ID, TWELVE) < -10
    assert np.isnan(weight(done, ID, HIGHEST))


def test_20_volts_not_given_leave_12_volts_open():
    done = judge(unit(20.0), CLAIMS)
    assert weight(done, ID, HIGHEST) < -10
    assert done.judged.plausibility_voltage[TWELVE] == pytest.approx(0.5)


def test_it_never_speaks_for_a_claim():
    near = (11.0, 12.0, 13.0)
    assert max(weight(judge(unit(asked), CLAIMS), ID, TWELVE) for asked in near) < 0


def test_a_denial_just_below_the_claim_counts_as_one_of_the_claim():
    both = unit(20.0, ("refused_voltage", 19.5, 0.02))
    assert ends(refused_voltage, both, CLAIMS)[0] == pytest.approx(0.95 * 20.0)


def test_a_denial_far_from_the_highest_claim_says_so():
    found = line(refused_voltage, unit(12.0), CLAIMS)
    assert not found["used"] and "more than 10 %" in found["why_not"]


def test_zero_volts_are_no_line():
    assert ends(refused_voltage, unit(0.0), CLAIMS) == [None, None]


def test_nothing_denied_is_no_line_and_the_voltage_seen_asks():
    assert line(refused_voltage, WIDE, CLAIMS) is None
    assert questions(refused_voltage, WIDE, CLAIMS) == []
