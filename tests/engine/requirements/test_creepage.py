"""Creepages: the table, rounded before it is doubled, never below the clearance."""
import numpy as np
import pytest

from teardowns.engine.requirements.creepage import (
    CREEPAGE,
    MATERIALS,
    basic_creepage,
    required_creepage,
)
from tests.engine.requirements.exactly import between_rows, up_to

NAN = float("nan")
COLUMNS = [("", 1), ("I", 2), ("II", 2), ("IIIa", 2), ("I", 3), ("II", 3), ("IIIb", 3)]


def required(voltage, group="", reinforced=True, pollution=2, clearance=0.0):
    """[mm]"""
    return float(required_creepage(voltage, group, reinforced, pollution, clearance) * 1e3)


# 250 V: 5.0 mm and line to neutral 2.5 mm, 281 V: 5.8 mm in two test reports on chargers,
# IEC 60950-1, p. 42 to 47. 666 V: tests of an open-source insulation library (21.1 mm at PD3 there,
# which rounds after doubling). 240 V: 2.0 + 0.5 · 40/50 = 2.4, twice 4.8. 125 V: a printed row.
@pytest.mark.parametrize("conditions, expected", [
    ({"voltage": 250.0}, 5.0), ({"voltage": 281.0}, 5.8),
    ({"voltage": 250.0, "reinforced": False}, 2.5), ({"voltage": 240.0}, 4.8),
    ({"voltage": 666.0, "reinforced": False}, 6.7), ({"voltage": 666.0}, 13.4),
    ({"voltage": 666.0, "group": "I", "reinforced": False}, 3.4),
    ({"voltage": 666.0, "group": "I"}, 6.8),
    ({"voltage": 666.0, "reinforced": False, "pollution": 3}, 10.6),
    ({"voltage": 666.0, "pollution": 3}, 21.2),
    ({"voltage": 125.0, "group": "IIIb"}, 3.0),
])
def test_published_points(conditions, expected):
    assert required(**conditions) == pytest.approx(expected, rel=1e-12)


def test_it_is_never_less_than_the_clearance():
    # 120 V, group III: 3.0 against 2.54; group I: 2 · 0.75 = 1.5, raised to 2.54.
    assert required(125.0, clearance=2.54e-3) == pytest.approx(3.0)
    assert required(125.0, "I", clearance=2.54e-3) == pytest.approx(2.54)


def test_every_row_is_used_as_printed():
    for row in CREEPAGE.rows:
        for column, (group, degree) in enumerate(COLUMNS, 1):
            assert basic_creepage(float(row[0]), group, degree) == row[column]


def test_rounding_never_passes_the_next_row():
    # 11 V, PD2: 0.408 would round to 0.5; the next row is 0.42.
    assert basic_creepage(11.0, "", 2) == 0.42


@pytest.mark.parametrize("column", range(1, 8))
def test_no_rounding_error_lifts_a_creepage(column):
    """Every volt against the same in whole numbers: 290 V is 2.9 mm at degree 2, not 3.0 mm."""
    volts, exact = between_rows(CREEPAGE, column, 1)
    above = [next(row[column] for row in CREEPAGE.rows if row[0] > at) for at in volts.tolist()]
    expected = [min(up_to(value, 10), row) for value, row in zip(exact, above, strict=True)]
    assert basic_creepage(volts, *COLUMNS[column - 1]).tolist() == expected


def test_every_tracking_index_from_100_on_has_one_group():
    # IEC 60664-1:2020, 4.8.1: I from 600, II from 400, IIIa from 175, IIIb from 100.
    assert [row[:2] for row in MATERIALS.rows] == [("I", 600), ("II", 400), ("IIIa", 175),
                                                   ("IIIb", 100)]
    assert [row[2] for row in MATERIALS.rows[1:]] == [row[1] for row in MATERIALS.rows[:-1]]


def test_a_worse_material_more_voltage_and_more_dirt_never_need_less():
    volts = np.linspace(5.0, 1000.0, 400)
    for degree in (1, 2, 3):
        found = [basic_creepage(volts, group, degree) for group in ("I", "II", "IIIa")]
        assert (np.diff(found[0]) >= -1e-12).all()
        assert (found[0] <= found[1]).all() and (found[1] <= found[2]).all()
    assert (basic_creepage(volts, "", 2) <= basic_creepage(volts, "", 3)).all()


def test_above_1000_v_and_for_the_unknown_nothing_is_known():
    assert np.isnan(basic_creepage(np.array([1000.1, NAN]), "", 2)).all()
    assert np.isnan(required(250.0, pollution=NAN)) and np.isnan(required(250.0, clearance=NAN))
