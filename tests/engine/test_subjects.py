"""Subjects: columns with nothing in them where nobody recorded anything."""
import numpy as np

from teardowns.engine.subjects import COLUMNS, Subjects, SubjectTable, facts_of_unit

TABLE = SubjectTable.of("path", [(0, {"barrier": "PRI_SEC", "distance": 2e-3}), (2, {})],
                        ["a to b", "c to d"], [7, 8])


def test_what_was_not_recorded_is_empty_or_unknown():
    assert TABLE.columns["barrier"].tolist() == ["PRI_SEC", ""]
    assert TABLE.columns["distance"][0] == 2e-3 and np.isnan(TABLE.columns["distance"][1])
    assert set(TABLE.columns) == set(COLUMNS["path"])


def test_a_part_of_the_units_counts_its_rows_from_zero():
    part = TABLE.of_units(1, 3)
    assert part.row.tolist() == [1] and part.label.tolist() == ["c to d"]
    assert part.evidence_id.tolist() == [8]


def test_a_kind_without_rows_is_an_empty_table():
    empty = Subjects()["layer"]
    assert len(empty.row) == 0 and set(empty.columns) == set(COLUMNS["layer"])


def test_the_facts_of_one_unit_are_plain_values():
    units = SubjectTable.of("unit", [(1, {"plug": "bs1363", "found_fuse": 1.0})])
    facts = facts_of_unit(Subjects({"unit": units}), 1)
    assert facts["plug"] == "bs1363" and facts["found_fuse"] == 1.0
    assert np.isnan(facts["found_x_capacitor"])
    assert facts_of_unit(Subjects({"unit": units}), 0) is None


def test_every_column_says_what_it_means():
    for columns in COLUMNS.values():
        assert all(column.label and column.meaning for column in columns.values())
