"""A contradiction named: worked by hand on a line of two factors, then on the rulebook's own."""
import json
from math import exp, inf, isnan, log

import numpy as np
import pytest

from teardowns.engine.columns import DEFAULT, EVIDENCE, Column, Frame
from teardowns.engine.pipeline import examine_unit
from teardowns.engine.rule import LIMIT, PASSED, Rule
from teardowns.engine.suspects import (
    Side,
    Suspect,
    how_obtained,
    suspect_text,
    suspects,
    weigh_suspects,
)
from tests.engine.make import WIDE, judge, watts

KEYS = {"rule", "code", "label", "how", "value", "agrees", "factor", "sigmas", "share", "text"}


def rule(rule_id, kind, reads, compute):
    return Rule(rule_id, kind, "power", rule_id, reads, compute, "", "", "")


def frame(**columns):
    """value, u[, how] of each quantity, one row."""
    return Frame(1, {code: Column(np.array([value]), np.array([u]), np.array([*how, EVIDENCE][:1]))
                     for code, (value, u, *how) in columns.items()})


def limit_of(value_of, **columns):
    found = frame(**columns)
    limit = rule("a/limit", LIMIT, tuple(columns), value_of)
    return Side(limit, found, float(value_of(*(found[code].value for code in columns))[0]))


HELD = Side(rule("a/held", PASSED, ("sustained_power",), lambda power: power),
            frame(sustained_power=(10.0, 0.1)), 10.0)


def product(one, other):
    return one * other


def by_code(found):
    return {one.code: one for one in found}


# 10 W were held above a limit of 2 · 2.5 = 5 W: either factor would have to double.
TWO = {"switching_frequency": (2000.0, 100.0), "current_sense_resistance": (0.0025, 0.0005)}


def test_each_reading_is_moved_until_both_lines_say_the_same():
    found = by_code(weigh_suspects(HELD, limit_of(product, **TWO)))
    assert found["switching_frequency"].agrees == pytest.approx(4000, rel=1e-6)
    assert found["current_sense_resistance"].factor == pytest.approx(2, rel=1e-6)
    assert found["sustained_power"].agrees == pytest.approx(5, rel=1e-6)


def test_the_way_is_counted_in_standard_uncertainties_of_the_reading():
    found = by_code(weigh_suspects(HELD, limit_of(product, **TWO)))
    # 2000 over 100; 0.0025 over 0.0005; 5 over 0.1
    assert [round(found[code].sigmas, 6) for code in (*TWO, "sustained_power")] == [20, 5, 50]


def test_an_estimate_is_suspected_before_a_measurement():
    found = weigh_suspects(HELD, limit_of(product, **TWO))
    # The same factor 2 either way, so that gross mistakes weigh 0.2, 0.02 and 0.02 alike, but for
    # exp(−5²/2) = 3.7e-6 of the stated uncertainty: shares 10/12, 1/12, 1/12.
    assert found[0].code == "current_sense_resistance"
    assert [round(one.share, 3) for one in found] == [0.833, 0.083, 0.083]


def test_a_reading_whose_uncertainty_covers_the_gap_takes_nearly_all_the_suspicion():
    close = limit_of(product, switching_frequency=(2000.0, 20.0),
                     current_sense_resistance=(0.004, 0.002))
    # 8 W against 10 W: the resistance moves by 0.001, half its uncertainty: exp(−1/8) = 0.88.
    best = weigh_suspects(HELD, close)[0]
    weight = exp(-0.125) + 0.2 * exp(-log(1.25) / log(3))
    others = 2 * 0.02 * exp(-log(1.25) / log(3))
    assert best.code == "current_sense_resistance"
    assert best.share == pytest.approx(weight / (weight + others), rel=1e-3)


def test_a_smaller_mistake_is_likelier_than_a_larger_one():
    square = limit_of(lambda one, other: one * other**2 / 0.0025, **{
        code: (value, 0.01 * value) for code, (value, _) in TWO.items()})
    # The second counts twice: √2 does what 2 does.
    found = by_code(weigh_suspects(HELD, square))
    assert found["current_sense_resistance"].factor == pytest.approx(2**0.5, rel=1e-6)
    assert found["current_sense_resistance"].share > found["switching_frequency"].share


def test_a_reading_that_cannot_dissolve_it_by_itself_is_no_suspect():
    capped = limit_of(lambda one, other: np.minimum(one * other, 6.0), **TWO)
    assert [one.code for one in weigh_suspects(HELD, capped)] == ["sustained_power"]


def test_a_finding_is_turned_round_where_that_lifts_the_limit():
    halved = limit_of(lambda whole, power: np.where(whole > 0.5, 2.2, 1.0) * power,
                      rectifier_full_wave=(0.0, 0.0), current_sense_resistance=(5.0, 0.1))
    found = by_code(weigh_suspects(HELD, halved))["rectifier_full_wave"]
    assert found.agrees == 1 and isnan(found.factor) and found.sigmas == inf
    assert suspect_text(found) == ("the full-wave rectifier (looked for and not found; with it "
                                   "they would agree)")


def test_how_a_number_came_about_is_told_from_its_column():
    at = frame(mass_total=(0.1, 0.001), fuse_rating=(2.0, 0.02), bus_voltage=(100.0, 20.0),
               minimum_bus_voltage=(70.0, 13.0, DEFAULT))
    assert [how_obtained(code, at) for code in at.columns] == [
        "measured", "read off", "estimated", "assumed"]


def test_a_suspect_is_told_with_what_was_read_and_what_would_agree():
    one = Suspect(HELD.rule, "bulk_capacitance_marked", "read off", 4.7e-6, 1.134e-5, 2.41, 13.0)
    assert suspect_text(one).replace("\u202f", " ") == (
        "the marking of the bulk capacitors (read as 4.7 µF; about 11 µF would agree)")


TEN_WATTS = (watts(10.0),)


def named(observations, claims=TEN_WATTS):
    assessment = judge((*WIDE, *observations), claims)
    return suspects(assessment, *examine_unit(assessment, 0), 0)


def test_a_marking_is_blamed_through_what_is_worked_out_from_it():
    # The bound is proportional to the capacitance: one factor is the other's reciprocal.
    found = named([("bulk_capacitance_marked", 4.7e-6, 5e-7),
                   ("sustained_power", 10.0, 0.1, 100.0)])
    assert found[0]["code"] == "bulk_capacitance_marked"
    marked, held = found[0], next(one for one in found if one["code"] == "sustained_power")
    assert marked["factor"] == pytest.approx(1 / held["factor"], rel=1e-4)
    assert marked["agrees"] == pytest.approx(4.7e-6 * marked["factor"])


def test_two_tests_that_exclude_each_other_share_the_suspicion():
    found = named([("sustained_power", 10.0, 0.1, 100.0), ("failed_power", 8.0, 0.08, 100.0)])
    assert sorted(one["code"] for one in found) == ["failed_power", "sustained_power"]
    assert [one["share"] for one in found] == pytest.approx([0.5, 0.5], abs=1e-6)


def test_a_voltage_that_was_seen_above_a_capacitors_rating_names_both():
    found = named([("output_capacitor_rating", 10.0, 0.0), ("offered_voltage", 20.0, 0.05)],
                  ((20.0, 0.5, 10.0, "usb_c"),))
    rating = next(one for one in found if one["code"] == "output_capacitor_rating")
    # 0.95 of the rating carry 20 V from 21.05 V on; exact as it was entered, so without sigmas.
    assert rating["agrees"] == pytest.approx(20 / 0.95) and rating["sigmas"] is None
    assert rating["share"] > 0.5


def test_it_is_json_and_silent_where_nothing_contradicts():
    found = named([("sustained_power", 10.0, 0.1, 100.0), ("failed_power", 8.0, 0.08, 100.0)])
    assert all(set(one) == KEYS for one in found)
    assert json.loads(json.dumps(found, allow_nan=False)) == found
    assert named([("sustained_power", 10.0, 0.1, 100.0)]) == []
