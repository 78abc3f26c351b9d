"""The bulk data as one file: a Data Package of CSV and Parquet tables, zipped.

Form: Frictionless Data Package and Table Schema, version 1 (specs.frictionlessdata.io); Parquet is
written by pyarrow from the very CSV text, so that both say the same. The same parts give the same
bytes.
"""
from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from hashlib import sha256
from typing import IO, Any

from teardowns import licence

from .csv_text import heading
from .tables import TABLES, Table

PARQUET = "application/vnd.apache.parquet"
MISSING = [""]
Parts = Callable[[Table], Iterable[bytes]]      # of a table, in their order: CSV without heading


@dataclass(frozen=True)
class About:
    """What a package says of itself."""

    name: str                     # lower case, digits and hyphens
    created: str                  # ISO 8601, UTC
    address: str                  # of the site
    rulebook: str
    units: int


def write_package(target: IO[bytes], about: About, parts: Parts) -> None:
    """target : a file open for writing, which can be sought in"""
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        resources = []
        for table in TABLES:
            resources.append(_csv(archive, about, table, parts))
            resources.append(_parquet(archive, about, table, parts))
        _add(archive, about, "LICENCE.txt", licence.IN_FORCE.text + "\n")
        _add(archive, about, "datapackage.json", json.dumps(
            descriptor(about, resources), ensure_ascii=False, indent=1) + "\n")


def descriptor(about: About, resources: list[dict[str, Any]]) -> dict[str, Any]:
    return {
        "profile": "data-package", "name": about.name, "created": about.created,
        "title": "Underplate: evidence from opened mains chargers",
        "description": (
            f"Public records of {about.units} specimens that people opened: what they recorded, "
            "and what the rulebook made of the confirmed evidence. Each is about the specimen "
            "examined, not about a product line or anyone’s intent. Units are SI. An empty cell "
            "is not known: neither 0 nor safe. Not a safety certificate."),
        "homepage": about.address, "rulebook": about.rulebook,
        "licenses": [{"name": name, "title": licence.NAMES[name], "path": licence.ADDRESSES[name]}
                     for name in (licence.MEASUREMENTS, licence.WORKS)],
        "resources": resources,
    }


def _csv(archive, about, table, parts):
    path = f"csv/{table.name}.csv"
    counted = _Counted()
    with archive.open(_entry(about, path), "w", force_zip64=True) as file:
        for part in (heading(table).encode(), *parts(table)):
            file.write(part)
            counted.add(part)
    return _resource(table, table.name, path, counted) | {
        "profile": "tabular-data-resource", "format": "csv", "mediatype": "text/csv",
        "encoding": "utf-8", "dialect": {"lineTerminator": "\r\n", "header": True}}


def _parquet(archive, about, table, parts):
    path = f"parquet/{table.name}.parquet"
    written = parquet(table, parts)
    counted = _Counted()
    counted.add(written)
    archive.writestr(_entry(about, path), written)
    return _resource(table, f"{table.name}-parquet", path, counted) | {
        "format": "parquet", "mediatype": PARQUET}


def parquet(table: Table, parts: Parts) -> bytes:
    """The table as a Parquet file, a row group a part; lists and objects stay JSON texts."""
    import pyarrow
    import pyarrow.parquet

    types = {"integer": pyarrow.int64(), "number": pyarrow.float64(), "boolean": pyarrow.bool_()}
    fields = [pyarrow.field(column.name, types.get(column.type, pyarrow.string()),
                            metadata={"description": column.meaning}) for column in table.columns]
    schema = pyarrow.schema(fields)
    written = io.BytesIO()
    with pyarrow.parquet.ParquetWriter(written, schema, compression="zstd") as writer:
        for part in parts(table):
            if part:
                writer.write_table(_arrow(schema, heading(table).encode() + part))
    return written.getvalue()


def _arrow(schema, text):
    from pyarrow import csv

    return csv.read_csv(
        io.BytesIO(text), parse_options=csv.ParseOptions(newlines_in_values=True),
        convert_options=csv.ConvertOptions(
            column_types=schema, null_values=MISSING, strings_can_be_null=True,
            true_values=["true"], false_values=["false"])).cast(schema)


def _resource(table, name, path, counted):
    return {
        "name": name.replace("_", "-"), "path": path, "title": table.title,
        "bytes": counted.bytes, "hash": f"sha256:{counted.digest.hexdigest()}",
        "schema": {
            "fields": [{"name": column.name, "type": column.type, "description": column.meaning}
                       for column in table.columns],
            "missingValues": MISSING, "primaryKey": list(table.key), **_foreign(table)},
    }


def _foreign(table):
    if table.name == "units":
        return {}
    return {"foreignKeys": [{"fields": "unit_uid",
                             "reference": {"resource": "units", "fields": "uid"}}]}


class _Counted:
    def __init__(self):
        self.bytes, self.digest = 0, sha256()

    def add(self, part: bytes) -> None:
        self.bytes += len(part)
        self.digest.update(part)


def _entry(about, path):
    """Dated as the package is, so that the same parts give the same bytes."""
    year, month, day = map(int, about.created[:10].split("-"))
    entry = zipfile.ZipInfo(path, (year, month, day, 0, 0, 0))
    entry.compress_type = zipfile.ZIP_DEFLATED
    entry.external_attr = 0o644 << 16
    return entry


def _add(archive, about, path, text):
    archive.writestr(_entry(about, path), text)


