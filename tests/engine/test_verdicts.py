import numpy as np
import pytest

from teardowns.engine.rule import FAILED, LIMIT, PASSED, PRACTICE, SWITCH
from teardowns.engine.verdicts import NEAR, WORDS, joint_odds, plausibility, verdict_words
from tests.engine.make import NAN


def word(low, high=None, weights=(-20.0,), kinds=(LIMIT,), total=-20.0, conflict=False):
    found = verdict_words(np.array([low]), np.array([low if high is None else high]),
                          np.array([total]), np.array([weights], float), np.array(kinds),
                          np.array([conflict]))
    return WORDS[int(found[0])]


@pytest.mark.parametrize("p, expected", [
    (0.95, "supported"), (0.9, "supported"), (0.6, "possible"), (0.5, "possible"),
    (0.3, "doubtful"), (0.1, "doubtful"), (0.05, "implausible"),
])
def test_the_words_by_plausibility(p, expected):
    assert word(p) == expected


def test_not_attainable_needs_both_ends_of_the_mains_range():
    assert word(0.001, 0.001) == "not attainable on this evidence"
    assert word(0.001, 0.3) == "implausible"


@pytest.mark.parametrize("kind, expected", [
    (LIMIT, "not attainable on this evidence"), (FAILED, "not attainable on this evidence"),
    (SWITCH, "not attainable on this evidence"), (PRACTICE, "doubtful"),
    (PASSED, "implausible"),
])
def test_not_attainable_needs_a_limit_a_failed_test_or_a_switch(kind, expected):
    assert word(0.001, kinds=(kind,)) == expected


@pytest.mark.parametrize("p, expected", [
    (0.95, "possible"), (0.6, "possible"), (0.3, "doubtful"), (0.05, "doubtful"),
])
def test_practice_alone_neither_supports_nor_condemns(p, expected):
    assert word(p, kinds=(PRACTICE,)) == expected
    assert word(p, weights=(-20.0, 1.0), kinds=(PRACTICE, LIMIT)) == expected


def test_a_lesser_voltage_is_supported_by_a_passed_test_alone():
    def lesser(kind):
        found = verdict_words(np.array([0.95]), np.array([0.95]), np.array([20.0]),
                              np.array([[20.0]]), np.array([kind]), np.array([False]),
                              np.array([True]))
        return WORDS[int(found[0])]

    assert lesser(LIMIT) == "possible" and lesser(PASSED) == "supported"


def of_watts(weights, kinds, of_power, lesser=False, power=0.95):
    one = np.array([0.95])
    found = verdict_words(one, one, np.array([15.0]), np.array([weights]), np.array(kinds),
                          np.array([False]), np.array([lesser]), np.array([power]),
                          np.array(of_power))
    return WORDS[int(found[0])]


def test_a_voltage_that_was_seen_supports_no_watts_beside_a_habit():
    # A heavy unit that shows 20 V to a voltmeter: nobody drew a watt from it.
    assert of_watts([6.0, 7.5], [PRACTICE, PASSED], [True, False]) == "possible"
    assert of_watts([6.0, 7.5], [LIMIT, PASSED], [True, False]) == "supported"
    assert of_watts([6.0, 7.5], [PASSED, PASSED], [True, False]) == "supported"


def test_half_of_the_watts_and_the_whole_voltage_support_no_claim():
    # 10 W were held of 20 W, at the claimed voltage: 0.83 for the power, 0.93 together.
    kinds, of_power = [PASSED, PASSED], [True, False]
    assert of_watts([8.0, 8.0], kinds, of_power, power=0.83) == "possible"
    assert of_watts([8.0, 8.0], kinds, of_power, power=0.92) == "supported"


def test_at_a_lesser_voltage_a_load_has_to_be_held():
    kinds, of_power = [PASSED, PASSED], [True, False]
    assert of_watts([1.0, 9.0], kinds, of_power, lesser=True) == "possible"
    assert of_watts([9.0, 1.0], kinds, of_power, lesser=True) == "supported"


def test_not_attainable_needs_ten_decibans_of_one_line():
    assert word(0.001, weights=(-9.0, -9.0, -9.0), kinds=(LIMIT,) * 3) == "implausible"


@pytest.mark.parametrize("weights, total, expected", [
    ((2.9, NAN), 2.9, "no evidence"), ((NAN, NAN), 0.0, "no evidence"),
    ((3.1, -3.1), 0.0, "possible"), ((2.0, 2.0), 4.0, "possible"),
])
def test_no_evidence_means_every_weight_and_the_total_below_three_decibans(
        weights, total, expected):
    assert word(0.5, weights=weights, kinds=(LIMIT, PRACTICE), total=total) == expected


def test_a_contradiction_overrides_every_word():
    assert word(0.99, conflict=True) == "evidence contradicts itself"


@pytest.mark.parametrize("switched", [True, False])
def test_joint_odds_of_nothing_known_are_even(switched):
    assert joint_odds(1.0, 1.0, switched) == pytest.approx(1.0)


def test_both_parts_have_to_be_true():
    # Power certain, voltage even: O_U / (1/3) = 3 to 1, for the voltage alone can fail.
    assert plausibility(joint_odds(1e9, 1.0, True)) == pytest.approx(0.75)
    assert joint_odds(1e9, 1e-6, True) < 1e-5 and joint_odds(1e9, 1e-6, False) < 1e-4


def test_an_adapter_of_one_voltage_stands_and_falls_with_its_power():
    # O_P / (0.05 O_P + 0.95): 9 / 1.4 and 0.1 / 0.955
    assert joint_odds(9.0, 1.0, False) == pytest.approx(9 / 1.4)
    assert joint_odds(0.1, 1.0, False) == pytest.approx(0.1 / 0.955)


def test_a_claim_of_one_part_alone_has_its_odds():
    assert joint_odds(4.0, NAN, True) == 4.0 and joint_odds(NAN, 0.5, True) == 0.5


def lifted(share, weight=9.0, total=9.8, voltage=False, **more):
    """A claim of power or voltage, p 0.905, that a test passed at `share` of it lifts."""
    found = verdict_words(np.array([0.905]), np.array([0.905]), np.array([total]),
                          np.array([[weight, 4.0]]), np.array([PASSED, LIMIT]), np.array([False]),
                          power=np.array([NAN if voltage else 0.905]),
                          far_below=np.array([[share < NEAR, False]]), **more)
    return WORDS[int(found[0])]


def test_a_test_far_below_the_claim_does_not_support_it_by_itself():
    assert lifted(0.7) == "possible" and lifted(0.95) == "supported"
    # All else alone, 15 of 24 decibans, is enough.
    assert lifted(0.7, total=24.0) == "supported"
    # Nor does a voltage below the claimed one.
    assert lifted(0.75, voltage=True) == "possible"


def test_a_voltage_that_has_to_be_switched_to_is_supported_where_it_was_seen():
    unseen = np.array([True])
    assert lifted(0.95, voltage=True, unseen=unseen) == "possible"
    assert lifted(0.95, voltage=True, unseen=~unseen) == "supported"
