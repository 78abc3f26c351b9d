"""Class marks as they are printed, and the impulse test of X capacitors."""
import numpy as np
import pytest

from teardowns.engine.requirements.safety_capacitors import (
    CLASSES,
    ENDURANCE,
    PROOF,
    barrier_of,
    bears,
    classes_in,
    impulse_voltage,
)


@pytest.mark.parametrize("text, expected", [
    ("Y1", {"Y1"}), ("X1Y1", {"X1", "Y1"}), ("X1/Y2", {"X1", "Y2"}), ("x2 275V~", {"X2"}),
    ("X1 400 V, Y2 250 V", {"X1", "Y2"}), ("CY1", set()), ("102 1kV", set()), ("", set()),
    ("Y1 222M 400V~", {"Y1"}), ("Y5V", set())])
def test_marks_in_a_text(text, expected):
    assert classes_in(text) == expected


def test_a_column_of_texts():
    assert bears(np.array(["Y1", "X2", "Y1"]), {"Y1"}).tolist() == [True, False, True]
    assert bears(np.array([], dtype=str), {"Y1"}).tolist() == []


def test_the_impulse_falls_with_the_capacitance_above_1_uf():
    # A capacitor maker's page: 2.5/√C; 2.2 µF: 1.69 kV.
    assert impulse_voltage(2500.0, 2.2e-6) == pytest.approx(1690.0, rel=5e-3)
    assert impulse_voltage(2500.0, 0.1e-6) == 2500.0


# Two capacitor makers' class pages and a product-safety list: impulse Y1 8 kV, Y2 5 kV, Y4 2.5 kV;
# voltage proof Y1 4 kV rms, Y2 1.5 kV rms.
def test_classes_are_tested_as_their_makers_print_it():
    impulse = {row[0]: row[3] for row in CLASSES.rows}
    assert (impulse["Y1"], impulse["Y2"], impulse["Y4"]) == ("8", "5", "2.5")
    assert dict(PROOF.rows) == {"Y1": 4000, "Y2": 1500}


# A table of the tests of IEC 60384-14: X 275 V → 343.8 V (1.25), Y 250 V → 425 V (1.7).
@pytest.mark.parametrize("kind, rated, tested", [("X", 275.0, 343.75), ("Y", 250.0, 425.0)])
def test_the_endurance_test(kind, rated, tested):
    assert dict(ENDURANCE.rows)[kind] * rated == pytest.approx(tested)


def test_a_capacitor_bridges_what_is_recorded_or_what_its_role_says():
    role = np.array(["barrier_capacitor", "x_capacitor", "x_capacitor", "fuse"])
    found = barrier_of(role, np.array(["", "", "PRI_SEC", "L_N"]))
    assert found.tolist() == ["PRI_SEC", "L_N", "PRI_SEC", ""]
