"""Categories of Regulation (EU) 2019/1782, Annex II, read from a plate in every way it allows."""
import pytest

from teardowns.engine.nameplate import asked_by_mark, largest_power

NAN = float("nan")


def test_the_largest_power_is_that_of_the_claims_that_print_one():
    assert largest_power((5.0, NAN, 18.0)) == 18.0
    assert str(largest_power((NAN,))) == str(largest_power(())) == "nan"


def test_one_plain_output_leaves_no_choice():
    # 12 V · 1.5 A: 0.071·ln 18 − 0.0014·18 + 0.67 = 0.8500; no load 0.10 W.
    asked = asked_by_mark(6.0, (12.0,), (1.5,), (18.0,))
    assert asked.mark == "VI"
    assert asked.efficiency == pytest.approx((0.8500, 0.8500), abs=6e-5)
    assert asked.no_load == (0.10, 0.10)


def test_below_6_volts_and_from_550_milliamperes_on_it_is_a_low_voltage_model():
    # 0.0834·ln 10 − 0.0014·10 + 0.609 = 0.7870
    assert asked_by_mark(6.0, (5.0,), (2.0,), (10.0,)).efficiency == pytest.approx(
        (0.7870, 0.7870), abs=6e-5)


def test_a_current_that_is_not_printed_follows_from_power_and_voltage():
    printed, derived = (asked_by_mark(6.0, (5.0,), (amperes,), (10.0,)) for amperes in (2.0, NAN))
    assert printed == derived


def test_several_voltages_are_read_in_every_way():
    # 5 V 3 A: low voltage, 15 W: 0.0834·2.70805 − 0.021 + 0.609 = 0.8139. 9 V 3 A: AC-DC, 27 W:
    # 0.8662. At the same time: multiple voltage, 27 W: 0.075·3.29584 + 0.561 = 0.8082.
    asked = asked_by_mark(6.0, (5.0, 9.0), (3.0, 3.0), (15.0, 27.0))
    assert asked.efficiency == pytest.approx((0.8082, 0.8662), abs=6e-5)
    assert asked.no_load == (0.30, 0.10)


def test_a_voltage_that_is_not_printed_could_be_any():
    # 30 W: multiple voltage 0.8161, AC-DC 0.071·3.4012 − 0.042 + 0.67 = 0.8695.
    asked = asked_by_mark(6.0, (NAN,), (NAN,), (30.0,))
    assert asked.efficiency == pytest.approx((0.8161, 0.8695), abs=6e-5)


def test_the_older_marks_know_no_multiple_voltage():
    # Level V, 27 W: 0.0626·3.29584 + 0.622 = 0.8283; 5 V 15 W: 0.075·2.70805 + 0.561 = 0.7641.
    asked = asked_by_mark(5.0, (5.0, 9.0), (3.0, 3.0), (15.0, 27.0))
    assert (asked.mark, asked.no_load) == ("V", (0.3, 0.3))
    assert asked.efficiency == pytest.approx((0.7641, 0.8283), abs=6e-5)


@pytest.mark.parametrize("level", [NAN, 3.0, 7.0, 5.5])       # 5.5: read as V and as VI
def test_without_a_known_mark_nothing_is_asked(level):
    assert asked_by_mark(level, (12.0,), (1.5,), (18.0,)) is None


def test_a_mean_of_equal_readings_is_the_mark():
    assert asked_by_mark(6.0 - 1e-12, (12.0,), (1.5,), (18.0,)).mark == "VI"


def test_a_voltage_of_nothing_breaks_nothing():
    assert asked_by_mark(6.0, (0.0,), (NAN,), (18.0,)).mark == "VI"


def test_a_mark_without_a_claimed_power_asks_for_no_number():
    for claims in (((NAN,), (NAN,), (NAN,)), ((), (), ())):
        asked = asked_by_mark(6.0, *claims)
        assert str(asked.efficiency) == str(asked.no_load) == "(nan, nan)"
