"""A load held for seconds supports a claim, less than one held for minutes."""
from teardowns.engine.rules.power.peak_power import peak_power
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules import ask

ID = "power/peak_power"
CLAIM = [(5.0, 2.0, NAN)]                 # 10 W


def test_seven_tenths_of_it_count():
    assert ask.value(peak_power, 20.0) == 14.0


def test_it_counts_at_its_mains_voltage_and_above():
    assert ask.ends(peak_power, [*WIDE, ("peak_power", 20.0, 0.1, 230.0)], CLAIM) == [None, 14.0]
    assert ask.ends(peak_power, [*WIDE, ("peak_power", 20.0, 0.1, 100.0)], CLAIM) == [14.0, 14.0]


def test_seconds_say_less_than_minutes():
    short, long = (judge([*WIDE, (code, 12.0, 0.1, 100.0)], CLAIM).judged.plausibility[0]
                   for code in ("peak_power", "sustained_power"))
    assert 0.5 < short < 0.97 < long


def test_a_longer_test_silences_it():
    done = judge([*WIDE, ("peak_power", 20.0, 0.1, 100.0), ("sustained_power", 9.0, 0.1, 100.0)],
                 CLAIM)
    assert weight(done, ID) != weight(done, ID)          # NaN: not used


def test_a_short_load_condemns_nothing():
    assert judge([*WIDE, ("peak_power", 3.0, 0.1, 100.0)], CLAIM).judged.plausibility[0] > 0.3
