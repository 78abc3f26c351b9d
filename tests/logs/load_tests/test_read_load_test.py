import json

import numpy as np
import pytest

from teardowns.engine.quantities import QUANTITIES
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, result_from
from teardowns.logs.load_tests import read_load_test
from teardowns.logs.load_tests.preparing import ROLES
from teardowns.logs.results import RESULTS
from tests.logs.load_tests.made import STATED, log, read, steps
from tests.logs.load_tests.scores import is_enough, scores_of
from tests.logs.load_tests.test_overcurrent import staircase


def everything():
    time, voltage, current = steps([0, 0.5, 1.0, 1.5, 2.0, 0], 700)
    return log(time, output_voltage=voltage, output_current=current, input_voltage=230.0,
               input_current=0.1 + 0.05 * current, input_power=0.1 + 6.2 * current,
               ambient_temperature=24.0, temperature=60.0)


def test_only_the_results_that_are_asked_for_are_read():
    found = read_load_test(everything(), STATED, {"efficiency", "after_limit"})
    assert {one.code for one in found} == {"efficiency", "after_limit"}


def test_mains_and_air_beside_it_are_its_conditions():
    found = read(everything(), code="sustained_power")
    assert found.conditions["mains_voltage"] == pytest.approx(230.0)
    assert found.conditions["ambient"] == pytest.approx(24.0)


def test_every_number_has_a_budget_that_adds_up_and_a_working():
    found = read_load_test(everything(), Conditions(set_voltage=5.0, rated_current=2.0))
    for one in (one for one in found if isinstance(one, Extracted)):
        assert one.uncertainty == pytest.approx(np.hypot.reduce([u for _, u in one.budget]))
        assert one.uncertainty > 0 and one.working and one.start < one.end


def test_every_code_is_named_with_its_unit():
    for one in read_load_test(everything(), STATED):
        assert one.code in QUANTITIES or one.code in RESULTS
        if isinstance(one, Extracted) and one.code in QUANTITIES:
            assert one.unit == QUANTITIES[one.code].unit


def test_results_go_through_json():
    for one in read_load_test(staircase("hiccup").channels, STATED):
        assert result_from(json.loads(json.dumps(one.to_json()))).code == one.code


@pytest.mark.parametrize("rows", (0, 1, 2, 3, 5))
def test_a_log_of_few_rows_is_read_or_not_and_never_fails(rows):
    channels = log(np.arange(float(rows)), output_voltage=5.0, output_current=1.0)
    assert not [one for one in read_load_test(channels, STATED)
                if one.code in ("failed_power", "overcurrent_point") and isinstance(one, Extracted)]


@pytest.mark.parametrize("role", ("output_voltage", "output_current"))
def test_a_column_of_blanks_gives_reasons_and_no_number(role):
    channels = log(np.arange(900.0), **{"output_voltage": 5.0, "output_current": 1.0,
                                        role: np.nan})
    found = read_load_test(channels, STATED, {"sustained_power", "failed_power"})
    assert found and not any(isinstance(one, Extracted) for one in found)


def wild_rows(seed):
    """Rows that no bench would give: blanks, standstill, huge and negative numbers, equal times."""
    rng = np.random.default_rng(seed)
    n = int(rng.choice([4, 8, 20, 100, 700]))
    time = np.cumsum(rng.choice([0.0, 1.0, 1.0, 5.0, 100.0], n))
    roles = [*ROLES, "temperature"]
    columns = {}
    for role in roles:
        values = [rng.standard_normal(n) * rng.choice([1e-3, 1.0, 1e6]), np.zeros(n),
                  np.full(n, 5.0), np.round(rng.uniform(0, 6, n)), np.linspace(0, 3, n)]
        columns[role] = values[rng.integers(5)].copy()
        columns[role][rng.random(n) < rng.choice([0.0, 0.1, 0.9])] = np.nan
    return log(time - time[0], step=float(rng.choice([0.0, 1e-3])), **columns)


@pytest.mark.parametrize("seed", range(60))
def test_wild_rows_give_finite_numbers_or_reasons(seed):
    stated = STATED if seed % 2 else Conditions(rated_current=2.0)
    for one in read_load_test(wild_rows(seed), stated):
        if isinstance(one, Extracted):
            assert np.isfinite([one.value, one.uncertainty, one.start, one.end]).all()


def test_a_hundred_random_sweeps_are_read_right():
    # 1 % of sustained power, 2 % of the trip, the right behaviour; the bench runs 2 000.
    counts, missed = scores_of(range(100))
    for asked, count in counts.items():
        assert is_enough(asked, count), (asked, count, missed)
