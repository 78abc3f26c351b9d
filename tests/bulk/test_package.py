"""The file of bulk data, read by tools that others use for it."""
import csv
import io
import json
import zipfile
from hashlib import sha256

import frictionless
import pyarrow.parquet
import pytest

from teardowns.bulk.csv_text import heading, lines
from teardowns.bulk.package import About, write_package
from teardowns.bulk.tables import TABLES
from tests.bulk.records import records

ABOUT = About("underplate-2026-01-09-1", "2026-01-09T10:00:00Z", "https://underplate.example",
              "3-abc", 2)


def parts(table):
    """A slice a record."""
    return [lines(table, table.rows(record)).encode() for record in records()]


@pytest.fixture(scope="module")
def package(tmp_path_factory):
    path = tmp_path_factory.mktemp("package") / "data.zip"
    with path.open("wb") as file:
        write_package(file, ABOUT, parts)
    folder = path.with_suffix("")
    zipfile.ZipFile(path).extractall(folder)
    return path, folder


def descriptor(folder):
    return json.loads((folder / "datapackage.json").read_text("utf-8"))


def test_frictionless_finds_nothing_wrong_with_it(package):
    described = descriptor(package[1])
    described["resources"] = [one for one in described["resources"] if one["format"] == "csv"]
    (package[1] / "csv-only.json").write_text(json.dumps(described), "utf-8")
    report = frictionless.validate(str(package[1] / "csv-only.json"))
    assert report.valid, report.flatten(["rowNumber", "fieldName", "type", "message"])[:5]


def test_every_file_has_the_size_and_the_digest_that_are_stated(package):
    for resource in descriptor(package[1])["resources"]:
        content = (package[1] / resource["path"]).read_bytes()
        assert (len(content), f"sha256:{sha256(content).hexdigest()}") == (
            resource["bytes"], resource["hash"])


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_parquet_says_what_csv_says(package, table):
    found = pyarrow.parquet.read_table(package[1] / f"parquet/{table.name}.parquet").to_pylist()
    with (package[1] / f"csv/{table.name}.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert len(found) == len(rows)
    for one, row in zip(found, rows, strict=True):
        for column in table.columns:
            assert _as_text(one[column.name], column.type) == _as_text(
                _typed(row[column.name], column.type), column.type), column.name


def _typed(text, kind):
    if text == "":
        return None
    return {"integer": int, "number": float, "boolean": lambda it: it == "true"}.get(
        kind, str)(text)


def _as_text(value, kind):
    # A line break within a cell is CR LF in what was sent; both readers keep it.
    return None if value is None else repr(value)


def test_the_same_parts_give_the_same_bytes(package):
    again = io.BytesIO()
    write_package(again, ABOUT, parts)
    assert again.getvalue() == package[0].read_bytes()


def test_licence_and_rulebook_are_inside(package):
    described = descriptor(package[1])
    assert described["rulebook"] == "3-abc"
    assert {one["name"] for one in described["licenses"]} == {"CC0-1.0", "CC-BY-4.0"}
    assert "public domain" in (package[1] / "LICENCE.txt").read_text("utf-8")


def test_an_awkward_text_comes_through_as_it_is(package):
    table = next(table for table in TABLES if table.name == "replies")
    found, = pyarrow.parquet.read_table(package[1] / "parquet/replies.parquet").to_pylist()
    assert found["text"] == 'We measured "12 W",\r\nnot 9 W; =1+1'
    assert heading(table).startswith("unit_uid,number,about")
