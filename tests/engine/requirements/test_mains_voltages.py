"""Voltages that the mains bring: by steps; the unknown stays unknown or is taken high."""
import numpy as np
import pytest

from teardowns.engine.requirements.mains_voltages import (
    assumed_working_voltage,
    mains_transient,
    short_term_overvoltage,
    sine_peak,
    temporary_overvoltage,
)

NAN = float("nan")


# IEC 60664-1 table F.1 as a board calculator and a converter maker's article transcribe it; 240 V:
# test report on a charger, IEC 62368-1, 2021.
@pytest.mark.parametrize("voltage, category, expected", [
    (240.0, 2, 2500.0), (120.0, 2, 1500.0), (230.0, 3, 4000.0), (100.0, 2, 800.0),
    (264.0, 2, 2500.0), (150.0, 2, 1500.0), (150.1, 2, 2500.0), (600.0, 4, 8000.0),
])
def test_a_transient_goes_by_steps(voltage, category, expected):
    assert mains_transient(np.array([voltage]), category).tolist() == [expected]


@pytest.mark.parametrize("voltage, category", [(601.0, 2), (NAN, 2), (240.0, NAN)])
def test_beyond_the_table_or_unknown_it_is_unknown(voltage, category):
    assert np.isnan(mains_transient(np.array([voltage]), np.array([category]))).all()


def test_a_temporary_overvoltage_is_2000_v_to_250_v():
    # IEC 62368-1, 5.4.2.3.2.3, as one open-source library transcribes it.
    found = temporary_overvoltage(np.array([230.0, 250.0, 277.0, NAN, 700.0]))
    np.testing.assert_array_equal(found, [2000.0, 2000.0, 2500.0, 2000.0, NAN])


def test_the_short_term_overvoltage_is_1200_v_above_the_system():
    # A semiconductor maker's worked example: 1000 V system, 2200 V rms; twice that for reinforced
    # insulation is 4400 V rms, 6222 V peak. By hand: 1430 V at 230 V, 2022 V peak.
    assert short_term_overvoltage(1000.0) == 2200.0
    assert sine_peak(2 * short_term_overvoltage(1000.0)) == pytest.approx(6222.5, abs=0.1)
    assert sine_peak(short_term_overvoltage(230.0)) == pytest.approx(2022.3, abs=0.1)


# √2 · 240 = 339.4, √2 · 264 = 373.4.
@pytest.mark.parametrize("rms, peak", [(240.0, 339.4), (264.0, 373.4)])
def test_the_peak_of_a_sine(rms, peak):
    assert sine_peak(rms) == pytest.approx(peak, abs=0.05)


def test_the_working_voltage_is_taken_from_reports_where_nobody_measured_it():
    line, inside = np.array([240.0, 240.0, 120.0, 120.0]), np.array([False, True, False, True])
    lenient = assumed_working_voltage(line, inside, demanding=False)
    demanding = assumed_working_voltage(line, inside, demanding=True)
    assert [part.tolist() for part in lenient] == [[250, 250, 125, 125], [420, 420, 210, 210]]
    assert [part.tolist() for part in demanding] == [[250, 285, 125, 160], [420, 550, 210, 350]]


def test_a_unit_for_more_than_250_v_has_its_own_mains_across_the_barrier():
    rms, peak = assumed_working_voltage(np.array([400.0]), np.array([False]), demanding=False)
    assert rms[0] == 400.0 and peak[0] == pytest.approx(565.7, abs=0.05)      # √2 · 400
