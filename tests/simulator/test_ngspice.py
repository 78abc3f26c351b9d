"""The simulator's circuits against ngspice, run here and now, for a few of them."""
import numpy as np
import pytest

from .circuit import DIODE_DROP, mains_current, valley_voltage
from .flyback import STEPS, Core, Drive, largest_cycle
from .ngspice import bus, flyback, measured, needs_ngspice

IDEAL, REAL = "IS=1e-6 N=0.08 RS=1e-3", "IS=2.5e-9 N=1.75 RS=0.04"
# W, F, V, Hz, bridge
ROWS = [(7, 10e-6, 85, 50, True), (12, 22e-6, 90, 60, True), (6.25, 4.7e-6, 230, 50, True),
        (2.5, 10e-6, 90, 50, False), (11.9, 10e-6, 100, 50, True)]


@needs_ngspice
@pytest.mark.parametrize("row", ROWS)
def test_the_valley_of_near_ideal_diodes(row):
    found = measured(bus(*row, IDEAL, 0.0))["lowest"]
    assert valley_voltage(*row, drop=0.06) == pytest.approx(found, abs=0.2)


@needs_ngspice
@pytest.mark.parametrize("row", ROWS)
def test_valley_and_current_of_a_silicon_bridge(row):
    found = measured(bus(*row, REAL, 4.7))
    drop = DIODE_DROP * (2 if row[4] else 1)
    assert valley_voltage(*row, drop, 4.7) == pytest.approx(found["lowest"], abs=0.5)
    assert mains_current(*row, drop, 4.7) == pytest.approx(found["current"], rel=0.03)


def stage(peak, gap, reflected=80.0, resistance=2.0):
    """EF16, 100 turns, 65 kHz."""
    one = np.ones(1)
    core = Core(100 * one, 20.1e-6 * one, 37.6e-3 * one, gap * one, 0.385 * one, 2000 * one)
    return core, Drive(peak * one, 0 * one, one / 65e3, 0.75 * one, reflected * one,
                       resistance * one)


# empty core, full core, near saturation, low bus
CYCLES = [(0.35, 0.17e-3, 120.0), (0.45, 0.17e-3, 60.0), (0.75, 0.17e-3, 110.0),
          (0.8, 0.35e-3, 75.0)]


@needs_ngspice
@pytest.mark.parametrize("peak, gap, volts", CYCLES)
def test_one_flyback_cycle(peak, gap, volts):
    core, drive = stage(peak, gap)
    cycle = largest_cycle(np.array([volts]), core, drive)
    one = {name: getattr(core, name)[0] for name in Core.__slots__}
    found = measured(flyback(
        volts, Core(**one), Drive(*(getattr(drive, name)[0] for name in Drive.__slots__)),
        cycle.lowest[0], cycle.on_time[0]))
    reached = core.current(cycle.peak)[0]
    assert found["peak"] == pytest.approx(reached, rel=0.02)
    assert found["energy"] * 1e-6 * 65e3 == pytest.approx(cycle.power[0], rel=0.02)
    # it comes back to the flux that it began with, within a step
    assert found["last"] == pytest.approx(cycle.lowest[0], abs=1.5 * cycle.peak[0] / STEPS)
