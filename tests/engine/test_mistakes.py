"""A gross mistake of a reading that several lines rest on."""
import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.cases import frame_at, make_cases
from teardowns.engine.conditions import Observations
from teardowns.engine.defaults import fill_defaults
from teardowns.engine.evidence import pool_evidence
from teardowns.engine.lines import draw_lines
from teardowns.engine.mistakes import (
    PHOTO_SCALE,
    log_if_mistaken,
    shared_codes,
    shared_readings,
)
from teardowns.engine.pipeline import assess
from tests.engine.make import NAN, WIDE, claim_table, evidence_table, judge, watts

RULES = rulebook.load().power
# A board for 20 W, seen on a scope and on a load.
BOARD = (*WIDE, ("core_effective_area", 40e-6, 1e-6), ("inductance_factor", 200e-9, 8e-9),
         ("core_window_area", 40e-6, 2e-6), ("bulk_capacitance", 44e-6, 1e-6),
         ("mass_total", 0.055, 0.0005), ("output_ripple_rating", 3.0, 0.1),
         ("rectifier_full_wave", 1.0, 0.0), ("power_factor_corrector", 0.0, 0.0))


def plausibility(*rows, claim=20.0):
    return float(judge(rows, [watts(claim)]).judged.plausibility[0])


def names(rows):
    """The readings that several lines of a unit of 20 W rest on."""
    evidence, claims = evidence_table(rows), claim_table([watts(20.0)])
    frame = fill_defaults(pool_evidence(evidence), claims)
    cases = make_cases(claims, frame, Observations.of(evidence), RULES, np.array([False]))
    frame = frame_at(frame.take(cases.unit), cases, Observations.of(evidence), False)
    return {reading.name for reading in shared_readings(draw_lines(RULES, frame), frame)}


def test_quantities_of_the_same_rules_are_one_reading():
    rules = (("a", ("core_effective_area", "efficiency")), ("b", ("core_effective_area",)),
             ("c", ("efficiency", "mains_voltage", "port_converter")), ("d", ("port_converter",)))
    found = {name: [j for j, _ in readers] for name, readers in shared_codes(rules)}
    # The five sizes behind the cross-section go with it; flags and conditions are no readings.
    assert found == {"centre_leg_width": [0, 1], "efficiency": [0, 2]}


def test_a_slip_of_what_several_lines_rest_on_is_one_mistake():
    # The frequency ten times too low: the core and its window say 2 W, where all else says 20.
    right, slipped = (("switching_frequency", hertz, 0.01 * hertz) for hertz in (100e3, 10e3))
    core_alone = [row for row in BOARD if row[0] != "core_window_area"]
    assert plausibility(*BOARD, right) > 0.5
    one, both = plausibility(*core_alone, slipped), plausibility(*BOARD, slipped)
    assert both > 0.5 * one > 0.01


def test_two_readings_that_say_the_same_convict_together():
    slipped = ("switching_frequency", 10e3, 100.0)
    small = [row if row[0] != "bulk_capacitance" else ("bulk_capacitance", 3.3e-6, 1e-7)
             for row in BOARD]
    assert plausibility(*small, slipped) < 0.1 * plausibility(*BOARD, slipped)


def test_only_what_several_lines_rest_on_is_shared():
    assert names([*WIDE, ("switching_frequency", 100e3, 1e3)]) == set()
    assert names(BOARD) == {"centre_leg_width"}
    assert "switching_frequency" in names([*BOARD, ("switching_frequency", 100e3, 1e3)])


def test_lengths_from_one_photo_share_its_scale():
    def sizes(*scales):
        return [*(row for row in BOARD if row[0] != "core_effective_area"), *(
            (code, size, 3e-4, NAN, NAN, -1, scale) for code, size, scale in zip(
                ("core_width", "core_height", "core_depth"), (20e-3, 10e-3, 6e-3), scales,
                strict=True))]

    assert PHOTO_SCALE in names(sizes(0, 0, 0))
    assert PHOTO_SCALE not in names(sizes(-1, -1, -1))


def test_a_limit_beside_a_habit_needs_no_share_in_common():
    case = [(code, 0.03, 1e-3) for code in ("case_height", "case_width", "case_depth")]
    assert names([*WIDE, *case]) == set()


# The bulk capacitor says some 20 W of 60; a corrector that was overlooked lifts its
# bus, and then it says nothing.
def test_a_corrector_that_nobody_listed_is_doubted_more_than_one_looked_for():
    small = [*WIDE, ("bulk_capacitance", 15e-6, 4e-7), ("mass_total", 0.12, 0.001)]
    looked = plausibility(*small, ("power_factor_corrector", 0.0, 0.0), claim=60.0)
    not_listed = plausibility(*small, claim=60.0)
    assert looked < not_listed < 0.5


def test_below_45_watts_nobody_expects_a_corrector():
    small = [*WIDE, ("bulk_capacitance", 10e-6, 4e-7)]
    looked = plausibility(*small, ("power_factor_corrector", 0.0, 0.0), claim=40.0)
    assert plausibility(*small, claim=40.0) == looked


def test_if_it_is_mistaken_all_else_speaks_and_ever_less_far_from_where_it_would_fit():
    points = np.log([[1.0, 10.0, 100.0]])
    of_reading, rest = np.array([[0.0, -3.0, -9.0]]), np.array([[-1.0, -2.0, -4.0]])
    found = log_if_mistaken(rest + of_reading, rest, np.array([0.005]), points)
    # It fits best at 1 W: ln(0.1 · 0.005) there; at 100 W less by ln(1 + 0.1 · ln 100).
    assert found[0, 0] == pytest.approx(-1.0 + np.log(5e-4))
    assert found[0, 2] == pytest.approx(-4.0 + np.log(5e-4) - np.log1p(0.1 * np.log(100.0)))


def test_a_unit_alone_gives_the_bits_of_many():
    units = [[*BOARD, ("switching_frequency", 10e3, 100.0)], [*WIDE, ("mass_total", 0.03, 0.001)],
             list(BOARD), [*WIDE, ("bulk_capacitance", 15e-6, 4e-7)]]
    claims = [[watts(20.0)], [watts(5.0)], [watts(45.0), watts(20.0)], [watts(60.0)]]
    many = assess(evidence_table(*units), claim_table(*claims), rulebook.load()).judged
    alone = [judge(*one).judged for one in zip(units, claims, strict=True)]
    assert many.plausibility.tolist() == [p for one in alone for p in one.plausibility.tolist()]
    assert many.capability.tobytes() == b"".join(one.capability.tobytes() for one in alone)
