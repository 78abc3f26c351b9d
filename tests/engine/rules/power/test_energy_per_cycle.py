"""What a capture shows of a moment supports a claim, and condemns none."""
import pytest

from teardowns.engine.rules.power.energy_per_cycle import energy_per_cycle
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules import ask

ID = "power/energy_per_cycle"
CLAIM = [(5.0, 2.0, NAN)]                 # 10 W
# 140 V · 6 µs = 0.84 mVs; squared over 2 mH: 0.3528 mJ, at 65 kHz 22.93 W from the bus.
CAPTURE = (*WIDE, ("on_time", 6e-6, 0.05e-6), ("bus_voltage", 140.0, 2.0),
           ("primary_inductance", 1e-3, 3e-5), ("switching_frequency", 65e3, 500.0))
AT = (140.0, 1e-3, 65e3, 0.778, 100.0, 5.0)


def test_seven_tenths_of_what_is_carried_count():
    # 22.93 W · 0.8 behind the bus · 0.7
    assert ask.value(energy_per_cycle, 6e-6, *AT, NAN, NAN, NAN) == pytest.approx(12.84, rel=1e-3)


def test_it_is_the_power_at_the_boundary_of_the_textbook():
    # With K = 2L/(RT) = (1 − D)² and M = D/√K a resistor takes V²/R = (V·D)²/(2·L·f) (Erickson
    # and Maksimović, ch. 5, from memory): D 0.45, V 100 V, L 1 mH, f 65 kHz.
    resistance = 2 * 1e-3 * 65e3 / 0.55**2
    output = 100.0 * 0.45 / 0.55
    shown = ask.value(energy_per_cycle, 0.45 / 65e3, 100.0, 1e-3, 65e3, 0.9725, 100.0, 5.0,
                      NAN, NAN, NAN)
    assert shown == pytest.approx(0.7 * output**2 / resistance, rel=1e-9)


def test_an_on_time_longer_than_the_period_says_nothing():
    assert ask.value(energy_per_cycle, 16e-6, *AT, NAN, NAN, NAN) != 0.0
    assert ask.ends(energy_per_cycle, [*CAPTURE[:3], ("on_time", 16e-6, 1e-7), *CAPTURE[4:]],
                    CLAIM) == [None, None]


def test_a_capture_at_high_mains_says_nothing_of_low_mains():
    high = [*CAPTURE[:4], ("bus_voltage", 320.0, 3.0), *CAPTURE[5:]]
    low, top = ask.ends(energy_per_cycle, high, CLAIM)
    assert low is None and top > 0


def test_it_does_not_speak_for_a_lower_voltage_than_the_unit_offers():
    offers = [*CAPTURE, ("offered_voltage", 20.0, 0.1)]
    assert ask.ends(energy_per_cycle, offers, CLAIM) == [None, None]


def test_it_supports_the_claim_and_less_than_a_load_that_was_held():
    nothing, shown, held = (judge(seen, CLAIM).judged.plausibility[0] for seen in (
        [*WIDE, *CAPTURE[3:3]], CAPTURE, [*WIDE, ("sustained_power", 12.9, 0.1, 100.0)]))
    assert nothing < shown < held


def test_a_capture_at_a_light_load_condemns_nothing():
    light = [*CAPTURE[:3], ("on_time", 1e-6, 1e-8), *CAPTURE[4:]]
    assert weight(judge(light, CLAIM), ID) >= -0.1


@pytest.mark.parametrize("code", ["sustained_power", "peak_power"])
def test_a_load_that_was_held_silences_it(code):
    done = judge([*CAPTURE, (code, 9.0, 0.1, 100.0)], CLAIM)
    assert weight(done, ID) != weight(done, ID)          # NaN: not used
