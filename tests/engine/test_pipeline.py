"""What must hold for every rulebook, whatever its rules."""
import json
from dataclasses import replace

import numpy as np
import pytest

from teardowns.engine import pipeline, rulebook
from teardowns.engine.pipeline import assess
from teardowns.engine.quantities import CODES, QUANTITIES
from teardowns.engine.report import report
from teardowns.engine.verdicts import WORDS
from tests.engine.make import NAN, claim_table, evidence_table

# A plausible size of each quantity that a line reads; the random evidence scatters around it.
SIZES = {
    "bulk_capacitance": 2e-5, "bulk_capacitance_marked": 2e-5, "mass_total": 0.05,
    "controller_power_wide": 20, "controller_power_high": 28, "sustained_power": 18,
    "failed_power": 22, "peak_power": 24, "overcurrent_point": 3, "efficiency": 0.85,
    "output_capacitor_rating": 16, "offered_voltage": 9, "refused_voltage": 12,
    "minimum_bus_voltage": 70, "rated_voltage_low": 100, "rated_voltage_high": 240,
    "case_height": 0.07, "case_width": 0.045, "case_depth": 0.03, "fuse_rating": 1.0,
    "fusible_resistance": 4.7, "fusible_power_rating": 2, "bridge_current_rating": 0.8,
    "power_factor": 0.58, "switching_frequency": 65e3, "current_sense_resistance": 0.8,
    "current_sense_threshold": 0.75, "switch_voltage_rating": 650, "controller_supply_low": 9,
    "controller_supply_high": 28, "primary_turns": 90, "secondary_turns": 8,
    "auxiliary_turns": 16, "primary_inductance": 9e-4, "core_effective_area": 32e-6,
    "core_window_area": 63e-6, "primary_wire_diameter": 3e-4, "primary_strands": 1,
    "secondary_wire_diameter": 6e-4, "secondary_strands": 2, "output_ripple_rating": 2.5,
    "rectifier_voltage_rating": 60, "rectifier_current_rating": 5,
    "synchronous_on_resistance": 0.01, "advertised_voltage": 9, "output_voltage_no_load": 5.1,
    "bus_voltage": 130,
}
EXACT = {"photographed_sides": 2.0}
FLAGS = [code for code in CODES if QUANTITIES[code].is_flag]


def random_unit(rng):
    rows = [(code, size * rng.lognormal(0, 0.1), size * 0.02, rng.choice([NAN, 100.0, 230.0]),
             rng.choice([NAN, 5.0, 9.0]))
            for code, size in SIZES.items() if rng.random() < 0.5]
    flags = [(code, float(rng.integers(0, 2)), 0.0) for code in FLAGS if rng.random() < 0.3]
    claims = [(float(rng.choice([5, 9, 12, 20, NAN])), float(rng.uniform(1, 4)), NAN)
              for _ in range(rng.integers(0, 4))]
    exact = [(code, value, 0.0) for code, value in EXACT.items() if rng.random() < 0.5]
    exact += [("on_time", 5e-6, 1e-7)] * (rng.random() < 0.5)      # beside no load that was held
    return rows + flags + exact, claims


UNITS = [random_unit(np.random.default_rng(seed)) for seed in range(700)]


def assessed(units):
    observations, claims = zip(*units, strict=True)
    return assess(evidence_table(*observations), claim_table(*claims), rulebook.load())


@pytest.fixture(scope="module")
def bulk():
    return assessed(UNITS)


@pytest.mark.parametrize("unit", [0, 7, 255, 511, 512, 699])
def test_a_unit_gets_the_same_bits_alone_as_in_bulk(bulk, unit):
    alone = assessed([UNITS[unit]])
    mine = bulk.claims.row == unit
    for name in alone.judged.__slots__:
        part = getattr(bulk.judged, name)
        expected = part[[unit]] if name == "capability" else part[mine]
        assert getattr(alone.judged, name).tobytes() == expected.tobytes(), name
    for code, column in alone.frame.columns.items():
        # By value: where nobody observed a quantity the sign of the NaN may differ.
        np.testing.assert_array_equal(column.value, bulk.frame[code].value[[unit]], code)


def test_a_unit_gets_the_same_bits_among_others_in_another_order(bulk):
    order = np.random.default_rng(2).permutation(len(UNITS))
    mixed = assessed([UNITS[unit] for unit in order])
    mine = np.concatenate([np.flatnonzero(bulk.claims.row == unit) for unit in order])
    for name in mixed.judged.__slots__:
        expected = getattr(bulk.judged, name)[order if name == "capability" else mine]
        assert getattr(mixed.judged, name).tobytes() == expected.tobytes(), name


# Eight chunks and two in threads; the bulk itself in none.
@pytest.mark.parametrize("size", [97, 512])
def test_every_unit_gets_the_same_bits_in_chunks_of_another_size(bulk, monkeypatch, size):
    monkeypatch.setattr(pipeline, "CHUNK", size)
    other = assessed(UNITS).judged
    for name in other.__slots__:
        assert getattr(other, name).tobytes() == getattr(bulk.judged, name).tobytes(), name


def test_examining_a_unit_again_gives_what_was_published(bulk):
    for row in (3, 600):
        examined, mine = pipeline.examine_unit(bulk, row)
        assert examined.judged.plausibility.tobytes() == bulk.judged.plausibility[mine].tobytes()


def test_claims_may_come_in_any_order(bulk):
    order = np.random.default_rng(1).permutation(len(bulk.claims.row))
    mixed = assess(bulk.evidence, bulk.claims.take(order), bulk.rulebook)
    assert mixed.judged.plausibility.tobytes() == bulk.judged.plausibility[order].tobytes()


def test_every_plausibility_is_a_probability(bulk):
    for p in (bulk.judged.plausibility, bulk.judged.plausibility_high):
        assert ((p >= 0) & (p <= 1)).all()


def test_no_evidence_leaves_even_odds_and_no_capability():
    done = assessed([([], [(20.0, 2.25, 45.0), (5.0, 3.0, NAN)])])
    np.testing.assert_allclose(done.judged.plausibility, 0.5)
    assert np.isnan(done.judged.capability).all() and np.isnan(done.judged.weights).all()
    assert {WORDS[word] for word in done.judged.verdict} == {"no evidence"}


@pytest.mark.parametrize("code", [*SIZES, *FLAGS])
def test_an_observation_without_a_number_is_as_if_there_were_none(code):
    claims = [(20.0, 2.25, 45.0), (5.0, 3.0, NAN)]
    nothing, empty = (assessed([(rows, claims)]) for rows in ([], [(code, NAN, NAN)]))
    for name in ("plausibility", "plausibility_high", "weights", "verdict", "capability"):
        np.testing.assert_allclose(getattr(empty.judged, name), getattr(nothing.judged, name),
                                   rtol=1e-12)
    np.testing.assert_array_equal(empty.frame[code].value, nothing.frame[code].value)


def any_unit(rng):
    """Numbers from anywhere in what can exist, its ends included, and claims of any size."""
    def number(quantity):
        low, high = quantity.low, min(quantity.high, max(1e4, 10 * quantity.low))
        return rng.choice([low, high, rng.uniform(low, high), max(low, high * 1e-6)])

    rows = [(code, float(rng.integers(0, 2) if q.is_flag else number(q)), 0.0 if q.is_flag else
             float(rng.choice([0.0, 1e-6, 0.1, 10.0])), rng.choice([NAN, 0.0, 100.0, 400.0]),
             rng.choice([NAN, 0.0, 5.0, 300.0]))
            for code, q in QUANTITIES.items() if rng.random() < 0.4]
    claims = [tuple(float(rng.choice([NAN, 0.0, size, 1e4])) for size in (20.0, 2.25, 45.0))
              for _ in range(3)]
    return rows, claims


def test_200_units_of_any_numbers_get_probabilities_and_reports_without_a_gap():
    # A RuntimeWarning would be an error here.
    done = assessed([any_unit(np.random.default_rng(seed)) for seed in range(200)])
    for p in (done.judged.plausibility, done.judged.plausibility_high):
        assert p.shape == (600,) and ((p >= 0) & (p <= 1)).all()
    assert np.isfinite(done.judged.total).all()
    for row in range(200):
        json.dumps(report(done, row), allow_nan=False)


def test_an_unused_line_has_no_weight_and_a_used_one_has(bulk):
    weights = bulk.judged.weights
    assert np.isfinite(weights[~np.isnan(weights)]).all()
    used = dict(zip((rule.id for rule in bulk.rulebook.lines), (~np.isnan(weights)).any(axis=0),
                    strict=True))
    assert [line for line, spoke in used.items() if not spoke] == []


def test_nothing_to_assess_is_no_error():
    done = assess(evidence_table(), claim_table(), rulebook.load())
    assert done.judged.plausibility.size == 0 and len(done.judged.capability) == 0


def test_no_rule_leaves_even_odds():
    nothing = replace(rulebook.load(), power=(), voltage=())
    done = assess(evidence_table([("mass_total", 0.05, 0.001)]), claim_table([(NAN, NAN, 45.0)]),
                  nothing)
    assert done.judged.plausibility[0] == pytest.approx(0.5)
