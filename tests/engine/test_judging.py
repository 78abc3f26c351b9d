"""Whole verdicts on small units."""
import numpy as np
import pytest

from teardowns.engine.verdicts import WORDS
from tests.engine.make import NAN, WIDE, judge, watts, weight

SMALL = (*WIDE, ("bulk_capacitance", 4.7e-6, 1e-7), ("rectifier_full_wave", 1.0, 0.0),
         ("power_factor_corrector", 0.0, 0.0))


def word(done, claim=0):
    return WORDS[int(done.judged.verdict[claim])]


def test_a_small_bulk_capacitor_refutes_at_the_low_end_only():
    done = judge(SMALL, [watts(45.0)])
    assert done.judged.plausibility[0] < 0.002 < done.judged.plausibility_high[0]
    assert word(done) == "implausible"


def test_a_failed_test_at_230_volts_refutes_at_both_ends():
    # Once it may be the cable; lost a second time the claim is not attainable.
    once = ("failed_power", 13.1, 0.1, 230.0, 20.0)
    done = judge([*WIDE, once], [(20.0, 2.25, 45.0)])
    assert word(done) == "implausible" and weight(done, "power/failed_power") < -14
    twice = judge([*WIDE, once, once], [(20.0, 2.25, 45.0)])
    assert word(twice) == "not attainable on this evidence"


def test_a_load_lost_at_5_volts_does_not_speak_of_the_20_volt_claim():
    done = judge([*WIDE, ("failed_power", 13.1, 0.1, 230.0, 5.0)],
                 [(20.0, 2.25, 45.0), (5.0, 3.0, 15.0)])
    assert np.isnan(weight(done, "power/failed_power", 0))
    assert weight(done, "power/failed_power", 1) < -15


def test_a_load_held_supports_whatever_the_voltage():
    done = judge([*WIDE, ("sustained_power", 45.2, 0.3, 100.0, 20.0)], [(20.0, 2.25, 45.0)])
    assert word(done) == "supported"
    assert weight(done, "voltage/offered_voltage") > 10      # it was held at 20 V


def test_a_load_held_at_230_volts_leaves_the_low_end_open():
    done = judge([*WIDE, ("sustained_power", 12.3, 0.1, 230.0, 5.0)], [(5.0, 2.4, NAN)])
    assert word(done) == "no evidence"
    assert done.judged.plausibility_high[0] > 0.9


def test_practice_alone_never_goes_beyond_its_37_to_1():
    # p ≥ 1/(1 + 37) = 0.026, however heavy or light the unit is.
    for mass in (0.002, 0.01, 0.05, 0.3, 2.0):
        done = judge([*WIDE, ("mass_total", mass, 0.0001)], [watts(45.0), watts(5.0)])
        assert (done.judged.plausibility >= 1 / 38).all()
        assert "not attainable on this evidence" not in {word(done, 0), word(done, 1)}


def test_a_test_passed_above_a_limit_is_a_contradiction_and_names_both():
    done = judge([*SMALL, ("sustained_power", 30.0, 0.3, 100.0, 20.0)], [(20.0, 1.5, NAN)])
    assert word(done) == "evidence contradicts itself"
    ids = [done.rulebook.lines[j].id for j in done.judged.conflict[0]]
    assert ids == ["power/sustained_power", "power/bulk_capacitor"]


def test_a_load_held_above_one_that_was_lost_is_a_contradiction():
    done = judge([*WIDE, ("sustained_power", 14.0, 0.1, 230.0, 5.0),
                  ("failed_power", 12.0, 0.1, 230.0, 5.0)], [(5.0, 2.4, NAN)])
    assert word(done) == "evidence contradicts itself"


def test_different_conditions_are_no_contradiction():
    # 14 W held at 230 V, 10 W lost at 100 V: a low mains voltage is harder.
    done = judge([*WIDE, ("sustained_power", 14.0, 0.1, 230.0, 5.0),
                  ("failed_power", 10.0, 0.1, 100.0, 5.0)], [(5.0, 2.4, NAN)])
    assert done.judged.conflict[0].tolist() == [-1, -1]


def test_20_volts_behind_16_volt_capacitors_is_not_believed():
    done = judge([*WIDE, ("output_capacitor_rating", 16.0, 0.1)], [(20.0, 2.25, 45.0)])
    assert done.judged.plausibility_voltage[0] < 0.01
    assert np.isnan(done.judged.plausibility_voltage).sum() == 0


def test_5_volt_claims_have_no_voltage_judgement():
    done = judge([*WIDE, ("output_capacitor_rating", 10.0, 0.1)], [(5.0, 2.0, NAN)])
    assert np.isnan(done.judged.plausibility_voltage[0])
    assert done.judged.plausibility[0] == pytest.approx(0.5)


def test_a_voltage_that_was_seen_is_supported_and_one_refused_is_not():
    done = judge([*WIDE, ("offered_voltage", 20.1, 0.1), ("refused_voltage", 12.0, 0.05)],
                 [(20.0, NAN, NAN), (12.0, NAN, NAN)])
    assert done.judged.plausibility[0] > 0.9 and done.judged.plausibility[1] < 0.05
    assert np.isnan(done.judged.plausibility_power).all()


def test_an_unread_plate_condemns_nobody_for_a_small_capacitor():
    # 3.9 µF does for 13 W at 220 V (5.4 W/µF at a valley of 165 V) and never does at 100 V.
    done = judge([("bulk_capacitance", 3.9e-6, 1e-7)], [watts(13.0)])
    assert done.judged.plausibility[0] > 0.4


def test_a_claim_covers_the_whole_range_so_the_low_end_counts():
    done = judge(SMALL, [watts(12.0)])
    assert done.judged.plausibility[0] < done.judged.plausibility_high[0]


def test_weights_add_up_where_lines_speak_of_different_things():
    # Power and voltage evidence, each decisive: the joint odds move by about the sum.
    done = judge([*WIDE, ("failed_power", 13.0, 0.1, 230.0, 20.0),
                  ("output_capacitor_rating", 10.0, 0.1)], [(20.0, 2.25, 45.0)])
    total = float(done.judged.total[0])
    assert total < weight(done, "power/failed_power") < -14
    assert total < weight(done, "voltage/output_capacitor") < -15


@pytest.mark.parametrize("lost", [10.8, 11.5, 13.0, 15.5])
def test_an_overload_trip_above_the_claim_is_no_word_against_it(lost):
    # A 10 W charger that lets go at 1.1 to 1.5 times its rating does what it prints.
    p = judge([*WIDE, ("failed_power", lost, 0.1, 100.0, 5.0)], [(5.0, 2.0, NAN)])
    assert p.judged.plausibility[0] >= 0.45


@pytest.mark.parametrize("lost", [4.0, 7.0, 9.0])
def test_a_load_lost_below_the_claim_speaks_against_it(lost):
    p = judge([*WIDE, ("failed_power", lost, 0.1, 100.0, 5.0)], [(5.0, 2.0, NAN)])
    assert p.judged.plausibility[0] < 0.1


@pytest.mark.parametrize("claim", [(5.0, 2.4, NAN), (20.0, 2.25, 45.0)])
@pytest.mark.parametrize("times", [1.0, 2.0, 6.0])
def test_a_load_of_once_twice_or_six_times_the_claim_supports_it(claim, times):
    load = times * claim[0] * claim[1]
    done = judge([*WIDE, ("sustained_power", load, 0.01 * load, 100.0, claim[0])], [claim])
    assert word(done) == "supported" and done.judged.plausibility_high[0] > 0.9


def test_more_load_that_was_held_never_speaks_less_for_the_claim():
    p = [judge([*WIDE, ("sustained_power", load, 0.01 * load, 100.0, 5.0)],
               [(5.0, 2.4, NAN)]).judged.plausibility[0] for load in np.geomspace(0.5, 72, 25)]
    assert (np.diff(p) > -1e-9).all() and p[0] < 0.6


@pytest.mark.parametrize("divided_by", [31, 100, 900, 2000])
def test_a_load_lost_far_below_the_range_of_the_prior_speaks_against_the_claim(divided_by):
    lost = 45.0 / divided_by
    done = judge([*WIDE, ("failed_power", lost, 0.01 * lost, 230.0, 20.0)], [(20.0, 2.25, 45.0)])
    assert word(done) in {"implausible", "not attainable on this evidence"}
    assert done.judged.plausibility_high[0] < 0.01


def test_what_is_lost_at_5_volts_leaves_the_20_volt_claim_without_evidence():
    done = judge([*WIDE, ("failed_power", 13.1, 0.1, 230.0, 5.0)], [(20.0, 2.25, 45.0)])
    assert word(done) == "no evidence"
    assert done.judged.plausibility[0] == pytest.approx(0.5)


def test_the_ends_of_the_mains_range_differ_only_where_a_line_reads_the_mains():
    mass, capacitor = (judge(rows, [watts(12.0)]).judged for rows in (
        [*WIDE, ("mass_total", 0.03, 1e-4)], SMALL))
    assert mass.plausibility[0] == mass.plausibility_high[0]
    assert capacitor.plausibility[0] != capacitor.plausibility_high[0]
    assert capacitor.capability[0, 0, 0] < capacitor.capability[0, 1, 0]


def test_the_word_is_that_of_the_low_end():
    # Held at 230 V: certain at the high end, and the low end is not known to hold anything.
    done = judge([*SMALL, ("sustained_power", 12.3, 0.1, 230.0, 5.0)], [(5.0, 2.4, NAN)])
    assert done.judged.plausibility[0] < 0.1 < 0.9 < done.judged.plausibility_high[0]
    assert word(done) == "implausible"


# 14 of 20 W, and 9 of 12 V: what is missing, nobody saw.
@pytest.mark.parametrize("row, claim, expected", [
    (("sustained_power", 14.0, 0.1, 100.0, 5.0), (5.0, 4.0, NAN), "possible"),
    (("sustained_power", 18.4, 0.1, 100.0, 5.0), (5.0, 4.0, NAN), "supported"),
    (("offered_voltage", 9.0, 0.1), (12.0, NAN, NAN, "usb_a"), "possible"),
    (("offered_voltage", 12.0, 0.1), (12.0, NAN, NAN, "usb_a"), "supported")])
def test_a_claim_is_supported_by_what_was_seen_near_it(row, claim, expected):
    assert word(judge([*WIDE, row], [claim])) == expected
