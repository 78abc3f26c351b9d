import numpy as np

from teardowns.engine.rules.voltage.offered_voltage import offered_voltage
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions

CLAIMS = [(12.0, NAN, NAN, "usb_c"), (5.0, NAN, NAN, "usb_c")]


def unit(voltage, *observations):
    return [*WIDE, ("offered_voltage", voltage, 0.02), *observations]


def available(observations):
    return float(judge(observations, CLAIMS).judged.plausibility_voltage[0])


def test_the_voltage_seen_is_the_value():
    assert offered_voltage(np.array([9.02])).tolist() == [9.02]


def test_unknown_in_unknown_out():
    assert np.isnan(offered_voltage(np.array([NAN])))[0]


def test_the_claimed_voltage_seen_at_the_port_supports_it():
    done = judge([*WIDE, ("offered_voltage", 9.02, 0.05)], [(9.0, NAN, NAN, "usb_a")])
    assert done.judged.plausibility_voltage[0] > 0.95


def test_5_volts_seen_do_not_refute_9():
    # Seen without the right request it may be one voltage of several.
    done = judge([*WIDE, ("offered_voltage", 5.1, 0.05)], [(9.0, NAN, NAN, "usb_a")])
    assert weight(done, "voltage/offered_voltage") >= 0


def test_no_voltage_seen_speaks_against_a_claim():
    weights = [weight(judge(unit(seen), CLAIMS), "voltage/offered_voltage")
               for seen in (5.0, 9.0, 12.0, 20.0, 48.0)]
    assert min(weights) > 0


def test_20_volts_seen_show_12_until_12_itself_was_denied():
    assert available(unit(20.1)) > 0.99
    assert available(unit(20.1, ("refused_voltage", 12.0, 0.02))) < 0.1


def test_a_load_held_at_12_volts_is_a_sight_of_12():
    held = [*WIDE, ("sustained_power", 24.0, 0.3, 230.0, 12.0)]
    assert ends(offered_voltage, held, CLAIMS) == [12.0, 12.0]
    assert available(held) > 0.99


def test_the_highest_sight_counts():
    assert ends(offered_voltage, unit(5.1, ("offered_voltage", 9.1, 0.02)), CLAIMS)[0] == 9.1


def test_zero_volts_are_no_line():
    assert ends(offered_voltage, unit(0.0), CLAIMS) == [None, None]


def test_a_claim_of_5_volts_is_not_judged():
    done = judge(unit(5.1), [(5.0, 2.0, NAN, "usb_a")])
    assert np.isnan(done.judged.plausibility_voltage[0])


def test_a_port_that_was_not_asked_is_no_line_and_a_question():
    assert line(offered_voltage, WIDE, CLAIMS) is None
    assert any("Which voltages" in text for text in questions(offered_voltage, WIDE, CLAIMS))
