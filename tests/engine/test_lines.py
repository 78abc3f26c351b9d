from dataclasses import replace

import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.columns import DEFAULT, Column, Frame, exact
from teardowns.engine.lines import RULES, draw_lines
from teardowns.engine.rule import LIMIT, Rule
from tests.engine.make import NAN


def times_efficiency(mass_total, efficiency):
    return mass_total * efficiency


def rule(name):
    return Rule(f"power/{name}", LIMIT, "power", name, ("mass_total", "efficiency"),
                times_efficiency, "s", "v", "f", 0.04, 0.45)


def frame():
    efficiency = exact([0.8, 0.8, 0.8])
    efficiency.u[:] = 0.04
    return Frame(3, {"mass_total": exact([10.0, NAN, 0.0]), "efficiency": efficiency})


# Moments of two independent standard normal variables: E z² = 1, E z⁴ = 3, E z²y² = 1.
@pytest.mark.parametrize("power, moment", [
    ((0, 0), 1), ((1, 0), 0), ((2, 0), 1), ((0, 2), 1), ((1, 1), 0), ((3, 0), 0), ((2, 1), 0),
    ((4, 0), 3), ((0, 4), 3), ((2, 2), 1), ((3, 1), 0), ((5, 0), 0), ((4, 1), 0)])
def test_the_nodes_have_the_moments_of_two_normal_distributions(power, moment):
    points, weights = RULES[True, True]
    found = (weights * (points ** np.array(power)).prod(axis=1)).sum()
    assert found == pytest.approx(moment, abs=1e-12)


@pytest.mark.parametrize("which", [(True, False), (False, True)])
def test_the_nodes_of_one_shared_quantity_have_its_moments_and_leave_the_other_alone(which):
    points, weights = RULES[which]
    own, other = points.T if which[0] else points.T[::-1]
    found = [(weights * own**power).sum() for power in range(6)]
    np.testing.assert_allclose(found, [1, 0, 1, 0, 3, 0], atol=1e-12)
    assert not other.any()


def test_unknown_or_zero_gives_no_line():
    (line,) = draw_lines((rule("a"),), frame())
    assert line.rows.tolist() == [0] and line.value.tolist() == [8.0]


def test_a_line_knows_what_it_shares():
    (line,) = draw_lines((rule("a"),), frame())
    # 0.04 of the model and 0.04/0.8 = 0.05 of the efficiency, in quadrature: 0.0640.
    assert line.u_ln[0] == pytest.approx(0.0640, abs=1e-4)
    assert line.sigma[0] == pytest.approx(0.04)
    assert line.shared[:, 0] == pytest.approx([0.05, 0.0], abs=1e-4)


def test_an_input_of_unknown_uncertainty_gives_no_line():
    columns = frame()
    columns["mass_total"].u[:] = NAN
    assert not draw_lines((rule("a"),), columns)[0].rows.size


def test_defaults_alone_make_no_line():
    columns = frame()
    taken = Frame(3, {code: Column(c.value, c.u, np.full(3, DEFAULT, np.int8))
                      for code, c in columns.columns.items()})
    assert not draw_lines((rule("a"),), taken)[0].rows.size


def test_a_line_is_silent_beside_one_that_tells_the_same_fact():
    first, second = draw_lines((rule("a"), replace(rule("b"), unless="power/a")), frame())
    assert first.rows.tolist() == [0] and second.rows.tolist() == []


def test_a_line_that_no_claim_moves_is_the_same_for_all_cases_of_a_unit():
    columns = frame().take([0, 0, 1, 0])
    (line,) = draw_lines((rule("a"),), columns, np.array([0, 0, 1, 2]))
    assert line.rows.tolist() == [0, 1, 3] and line.same.tolist() == [0, 0, 1]


def area(core_width, core_depth):
    return core_width * core_depth


@pytest.mark.parametrize("scale, expected", [
    ((4, 4), 0.02), ((4, 5), 0.01414), ((-1, -1), 0.01414)])
def test_lengths_from_one_photo_err_together(scale, expected):
    # 1 % each: 2 % where both hang on one scale, √2 % where not.
    length = exact([0.01])
    length.u[:] = 1e-4
    columns = Frame(1, {"core_width": length, "core_depth": length},
                    {"core_width": np.array(scale[:1]), "core_depth": np.array(scale[1:])})
    made = Rule("power/area", LIMIT, "power", "area", ("core_width", "core_depth"), area,
                "s", "v", "f", 1e-6, 0.45)
    (line,) = draw_lines((made,), columns)
    assert line.u_ln[0] == pytest.approx(expected, rel=1e-3)


def test_the_lines_of_a_unit_without_evidence_are_absent():
    nothing = Frame(2).with_columns({"output_voltage": exact([5.0, 5.0])})
    assert all(not line.rows.size for line in draw_lines(rulebook.load().power, nothing))
