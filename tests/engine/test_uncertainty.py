import GTC
import numpy as np
import pytest

from teardowns.engine.columns import EVIDENCE, Column
from teardowns.engine.rule import LIMIT, Rule
from teardowns.engine.uncertainty import contributions, correlated, within


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


@pytest.mark.parametrize("scales, expected", [
    ({"core_width": [4], "core_depth": [4]}, 2 * 0.01 * 0.02), ({"core_width": [4]}, 0.0),
    ({"core_width": [4], "core_depth": [5]}, 0.0), ({}, 0.0)])
def test_errors_of_one_photo_scale_add_before_they_are_squared(scales, expected):
    # (a + b)² − a² − b² = 2·a·b
    rule = rule_of(product, "core_width", "core_depth")
    found = correlated(rule, np.array([[0.01], [0.02]]),
                       {code: np.array(scale) for code, scale in scales.items()}, np.array([0]))
    assert float(found[0]) == pytest.approx(expected)


def saturation(inductance_factor, core_effective_area, saturation_flux_density, efficiency):
    return (saturation_flux_density**2 * core_effective_area**2 * 65e3 * efficiency
            / (2 * inductance_factor))


def test_a_budget_is_that_of_an_uncertainty_library():
    # GTC 1.5.1 propagates by the derivatives of JCGM 100:2008, 5.1.2.
    inputs = {"inductance_factor": (140e-9, 7e-9), "core_effective_area": (20.1e-6, 6e-7),
              "saturation_flux_density": (0.385, 0.02), "efficiency": (0.8, 0.03)}
    theirs = [GTC.ureal(*pair) for pair in inputs.values()]
    power = saturation(*theirs)
    expected = [abs(GTC.component(power, one)) / GTC.value(power) for one in theirs]
    rule = rule_of(saturation, *inputs)
    columns = [column(*pair) for pair in inputs.values()]
    parts = contributions(rule, columns, saturation(*(one.value for one in columns)))
    assert [abs(float(part[0])) for part in parts] == pytest.approx(expected, rel=0.01)
    assert np.hypot.reduce(parts)[0] == pytest.approx(GTC.uncertainty(power) / GTC.value(power),
                                                      rel=0.01)


def test_the_library_gives_the_published_example():
    # JCGM 100:2008, H.2: resistance, reactance and impedance from five correlated readings (data
    # from memory; results as published: R 127.732 ± 0.071, X 219.847 ± 0.295, Z 254.260 ± 0.236).
    volts = (5.007, 4.994, 5.005, 4.990, 4.999)
    milliamperes = (19.663, 19.639, 19.640, 19.685, 19.678)
    phase = (1.0456, 1.0438, 1.0468, 1.0428, 1.0433)
    v, i, phi = GTC.type_a.multi_estimate_real(
        (volts, [1e-3 * reading for reading in milliamperes], phase))
    for found, value, u in ((v / i * GTC.cos(phi), 127.732, 0.071),
                            (v / i * GTC.sin(phi), 219.847, 0.295), (v / i, 254.260, 0.236)):
        assert GTC.value(found) == pytest.approx(value, abs=5e-4)
        assert GTC.uncertainty(found) == pytest.approx(u, abs=6e-4)
