import numpy as np
import pytest

from teardowns.engine.rules.power.sustained_power import sustained_power
from teardowns.engine.verdicts import WORDS
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions

ID = "power/sustained_power"
CLAIM = [(5.0, 2.0, NAN)]                 # 10 W


def unit(power, mains=100.0, output=5.0, u=None):
    return [*WIDE, ("sustained_power", power, 0.01 * power if u is None else u, mains, output)]


def test_the_load_is_the_value():
    # 800 s at 2 A and 4.86 V: 9.72 W.
    assert sustained_power(np.array([2 * 4.86])).tolist() == [9.72]


def test_unknown_in_unknown_out():
    assert np.isnan(sustained_power(np.array([NAN])))[0]


def test_a_load_at_the_claim_supports_it():
    done = judge([*WIDE, ("sustained_power", 12.0, 0.1, 100.0, 5.0)], [(5.0, 2.4, NAN)])
    assert done.judged.plausibility[0] > 0.95
    assert weight(done, "power/sustained_power") > 10


def test_a_load_far_below_the_claim_says_little():
    done = judge([*WIDE, ("sustained_power", 2.0, 0.02, 100.0, 5.0)], [(5.0, 2.4, NAN)])
    assert 0 < weight(done, "power/sustained_power") < 4


def test_ten_minutes_at_9_72_watts_support_5_volts_2_amperes():
    # 800 s at 2 A and 4.86 V: 9.72 W, in regulation above 4.75 V. Meters of 0.5 % and 2 digits:
    # √((0.044 V/4.86 V)² + (0.03 A/2 A)²) = 1.75 %, 0.17 W.
    done = judge(unit(9.72, u=0.17), CLAIM)
    assert WORDS[int(done.judged.verdict[0])] == "supported"


def test_the_uncertainty_is_never_better_than_one_percent():
    found = line(sustained_power, unit(10.0, u=0.0), CLAIM)["ends"]["low"]["u_ln"]
    assert found == pytest.approx(0.01)


# Plate 100 to 240 V; a load held at V counts where V_end ≥ 0.85·V, not stated: high end only.
@pytest.mark.parametrize("mains, at", [
    (100.0, [10.0, 10.0]), (115.0, [10.0, 10.0]), (120.0, [None, 10.0]),
    (230.0, [None, 10.0]), (NAN, [None, 10.0])])
def test_it_counts_at_its_mains_voltage_and_above(mains, at):
    assert ends(sustained_power, unit(10.0, mains), CLAIM) == at


def test_40_watts_at_20_volts_show_2_amperes_at_5():
    held = unit(40.0, output=20.0)
    claims = [(20.0, 2.0, NAN), (5.0, 3.0, NAN)]
    done = judge(held, claims)
    assert ends(sustained_power, held, claims)[0] == 40.0          # the headline claim
    assert WORDS[int(done.judged.verdict[0])] == "supported"
    assert done.judged.plausibility_power[1] < 0.99 < done.judged.plausibility_power[0]


def test_no_load_that_was_held_speaks_against_a_claim():
    loads = (0.5, 2.0, 9.0, 10.0, 30.0, 100.0)
    assert min(weight(judge(unit(load), CLAIM), ID) for load in loads) > 0


def test_nothing_held_is_no_line():
    assert ends(sustained_power, unit(0.0), CLAIM) == [None, None]


def test_a_unit_that_was_not_tested_has_no_line_and_the_test_is_asked_for():
    assert line(sustained_power, WIDE, CLAIM) is None
    assert any("load test" in text for text in questions(sustained_power, WIDE, CLAIM))
    assert np.isnan(weight(judge(WIDE, CLAIM), ID))
