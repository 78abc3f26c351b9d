import numpy as np
import pytest

from teardowns.engine.columns import EVIDENCE, Column
from teardowns.engine.rule import LIMIT, Rule
from teardowns.engine.uncertainty import contributions, within


def product(bulk_capacitance, bus_voltage):
    return bulk_capacitance * bus_voltage**2


def rule_of(compute, *reads):
    return Rule("power/x", LIMIT, "power", "X", reads, compute, "s", "v", "f", 0.04, 0.45)


def column(value, u):
    return Column(np.array([value]), np.array([u]), np.array([EVIDENCE], np.int8))


def test_contributions_of_a_power_law_are_its_exponents_times_relative_uncertainty():
    # ln(C·V²) = ln C + 2 ln V: 1 · 2 % and 2 · 1 %.
    rule = rule_of(product, "bulk_capacitance", "bus_voltage")
    inputs = [column(1e-5, 2e-7), column(100.0, 1.0)]
    parts = contributions(rule, inputs, product(np.array([1e-5]), np.array([100.0])))
    assert [float(part[0]) for part in parts] == pytest.approx([0.02, 0.02], rel=1e-3)


def test_a_step_out_of_the_formula_leaves_the_other_step():
    def root(bus_voltage):
        with np.errstate(invalid="ignore", divide="ignore"):
            return np.sqrt(bus_voltage - 95)

    # ln √(100 + 10 − 95) − ln √5 = ln(15/5)/2 = 0.549; the step down has no root.
    rule = rule_of(root, "bus_voltage")
    parts = contributions(rule, [column(100.0, 10.0)], np.sqrt(np.array([5.0])))
    assert float(parts[0][0]) == pytest.approx(np.log(3) / 2)


def test_an_exact_input_adds_nothing():
    rule = rule_of(product, "bulk_capacitance", "bus_voltage")
    parts = contributions(rule, [column(1e-5, 0.0), column(100.0, 0.0)], np.array([0.1]))
    assert [float(part[0]) for part in parts] == [0.0, 0.0]


def test_a_step_stays_inside_what_can_exist():
    assert within("efficiency", np.array([1.2, 0.8])).tolist() == [0.99, 0.8]
    assert within("mains_voltage", np.array([-1.0])).tolist() == [-1.0]
