"""The capacitors across the barrier together."""
import pytest

from teardowns.exchange.observing.barrier import most_across


def part(**more):
    return {"role": "barrier_capacitor", "state": "recorded", "bridges": "", "count": 1,
            "in_series": False, "nominal": 2.2e-9, "tolerance": 0.2} | more


# By hand: 2.2 nF + 20 % = 2.64 nF; two in parallel twice, in series half; with 1.0 nF + 10 % 3.74.
@pytest.mark.parametrize("parts, expected", [
    ([part()], 2.64e-9), ([part(count=2)], 5.28e-9), ([part(count=2, in_series=True)], 1.32e-9),
    ([part(), part(nominal=1e-9, tolerance=0.1)], 3.74e-9),
    ([part(role="x_capacitor", bridges="PRI_SEC"), part(role="x_capacitor")], 2.64e-9)])
def test_sums(parts, expected):
    assert most_across(parts)["barrier_capacitance_most"] == pytest.approx(expected)


@pytest.mark.parametrize("parts", [
    [], [part(state="not_found")], [part(), part(state="not_readable")],
    [{key: value for key, value in part().items() if key != "nominal"}],
    [part(bridges="PRI_PE")]])
def test_a_sum_with_a_part_missing_is_not_known(parts):
    assert most_across(parts) == {}


def test_an_unread_tolerance_is_twenty_percent():
    plain = {key: value for key, value in part().items() if key != "tolerance"}
    assert most_across([plain])["barrier_capacitance_most"] == pytest.approx(2.64e-9)
