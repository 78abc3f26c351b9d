import pytest

from teardowns.bulk.tables import EVIDENCE, NOT_EXPORTED, TABLES
from teardowns.exchange.schema import row_schema
from tests.bulk.records import records

KINDS = {"string": str, "integer": int, "number": (int, float), "boolean": bool, "array": list,
         "object": dict}
BY_NAME = {table.name: table for table in TABLES}


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_every_cell_is_of_its_columns_type_and_every_key_is_there_once(table):
    for record in records():
        rows = list(table.rows(record))
        for row in rows:
            for column in table.columns:
                value = row.get(column.name)
                assert value is None or isinstance(value, KINDS[column.type]), column.name
        keys = [tuple(row[name] for name in table.key) for row in rows]
        assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("name", EVIDENCE)
def test_every_field_of_the_form_is_a_column(name):
    names = {column.name for column in BY_NAME[name].columns}
    assert set(row_schema(name)["properties"]) - NOT_EXPORTED <= names


def test_names_of_files_on_somebodys_machine_are_left_out():
    for name in ("photos", "recordings"):
        assert "original_name" not in {column.name for column in BY_NAME[name].columns}


def test_every_table_gets_rows_of_these_records():
    for table in TABLES:
        assert any(list(table.rows(record)) for record in records()) or table.name in (
            "photos", "recordings", "findings"), table.name


def test_a_measurement_says_its_unit():
    row = next(row for row in BY_NAME["measurements"].rows(records()[0])
               if row["quantity"] == "mass_total")
    assert row["unit"] == "kg"


def test_a_record_without_terms_leaves_the_licence_unknown():
    first, second = (next(iter(BY_NAME["units"].rows(record))) for record in records())
    assert (first["measurements_licence"], second["measurements_licence"]) == (None, "CC0-1.0")
