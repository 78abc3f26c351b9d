import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.columns import Frame, exact
from teardowns.engine.lines import NODE_WEIGHTS, NODES, draw_lines
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


def test_the_nodes_have_the_moments_of_a_normal_distribution():
    z = NODES[:, 0]
    assert NODE_WEIGHTS.sum() == pytest.approx(1)
    for order, moment in ((1, 0), (2, 1), (3, 0), (4, 3)):
        assert (NODE_WEIGHTS * z**order).sum() == pytest.approx(moment, abs=1e-12)


def test_unknown_or_zero_gives_no_line():
    (line,) = draw_lines((rule("a"),), frame())
    assert line.rows.tolist() == [0] and line.value.tolist() == [8.0]


def test_one_reader_keeps_the_shared_uncertainty_as_its_own():
    (line,) = draw_lines((rule("a"),), frame())
    assert line.shifts is None
    # 0.04 of the model and 0.04/0.8 = 0.05 of the efficiency, in quadrature: 0.0640.
    assert line.u_ln[0] == pytest.approx(0.0640, abs=1e-4)
    assert line.sigma[0] == pytest.approx(0.04)


def test_several_readers_move_with_its_nodes():
    first, _ = draw_lines((rule("a"), rule("b")), frame())
    inside = np.abs(NODES[:, 0]) < 4.1
    expected = np.log1p(0.05 * NODES[inside, 0])
    np.testing.assert_allclose(first.shifts[0, inside], expected, atol=1e-12)


def test_the_lines_of_a_unit_without_evidence_are_absent():
    nothing = Frame(2).with_columns({"output_voltage": exact([5.0, 5.0])})
    assert all(not line.rows.size for line in draw_lines(rulebook.load().power, nothing))
