"""The tables of the efficiency marks.

VI: Regulation (EU) 2019/1782, Annex II; the United States above 250 W from memory. V: ENERGY STAR
2.0 and AS/NZS 4665.2. IV: 42 U.S.C. 6295(u)(3)(A). Values worked from the printed functions.
"""
import numpy as np
import pytest

from teardowns.engine.physics.efficiency_regulation import (
    AC_AC,
    AC_DC,
    LOW_VOLTAGE,
    LOW_VOLTAGE_AC_AC,
    MULTIPLE_VOLTAGE,
    minimum_efficiency,
    no_load_limit,
    single_voltage_category,
)

NAN = float("nan")


@pytest.mark.parametrize("category, watts, least", [
    (AC_DC, 1, 0.6600), (AC_DC, 10, 0.8195), (AC_DC, 15, 0.8413), (AC_DC, 18, 0.8500),
    (AC_DC, 20, 0.8547), (AC_DC, 27, 0.8662), (AC_DC, 45, 0.8773), (AC_DC, 49, 0.8777),
    (AC_DC, 65, 0.8800), (LOW_VOLTAGE, 0.5, 0.3455), (LOW_VOLTAGE, 2.5, 0.6819),
    (LOW_VOLTAGE, 5, 0.7362), (LOW_VOLTAGE, 10, 0.7870), (MULTIPLE_VOLTAGE, 30, 0.8161),
    (LOW_VOLTAGE, 65, 0.87), (MULTIPLE_VOLTAGE, 65, 0.86), (AC_AC, 10, 0.8195),
    (LOW_VOLTAGE_AC_AC, 10, 0.7870),
    (MULTIPLE_VOLTAGE, 0.5, 0.3155),              # 0.497·0.5 + 0.067
])
def test_level_vi(category, watts, least):
    assert float(minimum_efficiency(watts, category, 6)) == pytest.approx(least, abs=6e-5)


@pytest.mark.parametrize("watts, at, above", [(1.0, 0.6600, 0.6686), (49.0, 0.8777, 0.8800)])
def test_level_vi_jumps_at_1_and_at_49_watts(watts, at, above):
    found = minimum_efficiency([watts, watts + 1e-9], AC_DC, 6)
    assert found == pytest.approx([at, above], abs=6e-5)


@pytest.mark.parametrize("category, watts, least", [
    (AC_DC, 10, 0.7661),                          # 0.0626·2.302585 + 0.622
    (AC_DC, 1, 0.620),                            # 0.480 + 0.140
    (LOW_VOLTAGE, 10, 0.7337),                    # 0.075·2.302585 + 0.561
    (LOW_VOLTAGE, 0.5, 0.3155), (AC_DC, 60, 0.87), (LOW_VOLTAGE, 60, 0.86),
])
def test_level_v(category, watts, least):
    assert float(minimum_efficiency(watts, category, 5)) == pytest.approx(least, abs=6e-5)


@pytest.mark.parametrize("watts, least", [
    (0.8, 0.40), (10, 0.7072), (51, 0.8539), (52, 0.85)])      # 0.09·2.302585 + 0.5 = 0.7072
@pytest.mark.parametrize("category", [AC_AC, AC_DC, LOW_VOLTAGE])
def test_level_iv_makes_no_difference_between_categories(category, watts, least):
    assert float(minimum_efficiency(watts, category, 4)) == pytest.approx(least, abs=6e-5)


@pytest.mark.parametrize("level, category, watts, most", [
    (6, AC_AC, 10, 0.21), (6, AC_DC, 10, 0.10), (6, LOW_VOLTAGE, 10, 0.10),
    (6, MULTIPLE_VOLTAGE, 10, 0.30), (6, AC_AC, 65, 0.21), (6, AC_DC, 65, 0.21),
    (6, LOW_VOLTAGE, 65, 0.21), (6, MULTIPLE_VOLTAGE, 65, 0.30), (6, AC_DC, 49.0, 0.10),
    (6, AC_DC, 49.1, 0.21), (6, LOW_VOLTAGE_AC_AC, 10, 0.21), (5, AC_DC, 49.9, 0.3),
    (5, AC_DC, 50, 0.5), (4, AC_DC, 10, 0.5), (4, AC_AC, 100, 0.5),
])
def test_input_without_load(level, category, watts, most):
    assert float(no_load_limit(watts, category, level)) == most


def test_above_250_watts_only_level_vi_of_the_united_states_asks_something():
    assert float(minimum_efficiency(300, AC_DC, 6)) == 0.875             # from memory
    assert float(no_load_limit(300, AC_DC, 6)) == 0.5
    assert np.isnan(minimum_efficiency(300, AC_DC, 5)) and np.isnan(no_load_limit(300, AC_DC, 4))


@pytest.mark.parametrize("watts, category, level", [
    (10, MULTIPLE_VOLTAGE, 5), (10, MULTIPLE_VOLTAGE, 4), (300, MULTIPLE_VOLTAGE, 5),
    (10, AC_DC, 3), (10, AC_DC, 7), (0, AC_DC, 6), (NAN, AC_DC, 6), (10, AC_DC, NAN)])
def test_where_a_mark_says_nothing_there_is_no_number(watts, category, level):
    assert np.isnan(minimum_efficiency(watts, category, level))
    assert np.isnan(no_load_limit(watts, category, level))


@pytest.mark.parametrize("volts, amperes, category", [
    (5.0, 2.0, LOW_VOLTAGE), (5.9, 0.55, LOW_VOLTAGE), (6.0, 2.0, AC_DC), (5.0, 0.5, AC_DC),
    (NAN, 2.0, AC_DC), (5.0, NAN, AC_DC)])
def test_low_voltage_is_below_6_volts_and_at_least_550_milliamperes(volts, amperes, category):
    assert single_voltage_category(volts, amperes) == category


def test_every_category_asks_more_of_more_power_up_to_49_watts():
    watts = np.linspace(0.1, 49.0, 200)
    for category in (AC_DC, LOW_VOLTAGE, MULTIPLE_VOLTAGE):
        assert (np.diff(minimum_efficiency(watts, category, 6)) > 0).all()


def test_one_gives_the_bits_of_many():
    rng = np.random.default_rng(1)
    watts, kind = rng.uniform(0.1, 120.0, 301), rng.integers(0, 5, 301)
    level = rng.integers(4, 7, 301)
    many = minimum_efficiency(watts, kind, level)
    for i in (0, 150, 300):
        one = minimum_efficiency(watts[[i]], kind[[i]], level[[i]])
        assert one.tobytes() == many[[i]].tobytes()
