"""The tables of the bulk data: their columns, and the rows that a record gives to each.

The lists of the exchange form are tables as they are, so a new field of the form is a new column.
What the engine made of a record, its licences and replies stand in tables of their own.
"""
from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.schema import row_schema, unit_schema

from .record import Record

EVIDENCE = ("printed_texts", "claims", "ports", "components", "stack", "insulation",
            "measurements", "photos", "recordings")
NOT_EXPORTED = {"original_name"}      # of a file on somebody's machine: it may name a person
ALIKE = {"string", "integer", "number", "boolean", "array", "object"}


@dataclass(frozen=True)
class Column:
    name: str
    type: str                # of Table Schema: string, integer, number, boolean, array, object
    meaning: str


@dataclass(frozen=True)
class Table:
    name: str
    title: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    rows: Callable[[Record], Iterable[Mapping[str, Any]]]


OF_UNIT = Column("unit_uid", "string", "Lasting identity of the record, see units.")


def _column(name, schema):
    kind = schema.get("type", "string")
    return Column(name, kind if kind in ALIKE else "string", schema.get("description", ""))


def _unit_columns():
    fields = unit_schema()["properties"]["unit"]["properties"]
    return [_column(name, schema) for name, schema in fields.items() if name != "status"]


def _units(record: Record) -> Iterator[Mapping[str, Any]]:
    headline = record.report["headline"]
    claim = {} if headline is None else record.report["claims"][headline]
    yield {
        **record.document["unit"], "unit": record.unit, "version": record.version,
        "published_at": record.published_at, "address": record.address,
        "verdict": claim.get("verdict"), "claimed_power": claim.get("power"),
        "plausibility": claim.get("plausibility"), "risk": record.report["safety"]["level"],
        "rulebook": record.report["rulebook"],
        "evidence_digest": record.report["evidence_digest"],
        **_terms(record),
    }


def _terms(record):
    last = record.licences[-1] if record.licences else {}
    return {"measurements_licence": last.get("measurements"), "works_licence": last.get("works")}


def _list(name):
    def rows(record: Record) -> Iterator[Mapping[str, Any]]:
        for row in record.document[name]:
            yield {"unit_uid": record.uid, **row}
    return rows


def _measurements(record: Record) -> Iterator[Mapping[str, Any]]:
    for row in _list("measurements")(record):
        quantity = QUANTITIES.get(row["quantity"])
        yield {**row, "unit": quantity.unit if quantity else None}


def _verdicts(record: Record) -> Iterator[Mapping[str, Any]]:
    for claim in record.report["claims"]:
        yield {"unit_uid": record.uid, "claim": claim["ref"].partition("/")[2], **claim}


def _capabilities(record: Record) -> Iterator[Mapping[str, Any]]:
    for end, found in record.report["capability"].items():
        if found is not None:
            mains = record.report["mains"][end]
            yield {"unit_uid": record.uid, "end": end, "mains_voltage": mains["voltage"],
                   "mains_frequency": mains["frequency"], "median": found["median"],
                   "low": found["low"], "high": found["high"]}


def _lines(record: Record) -> Iterator[Mapping[str, Any]]:
    for line in record.report["lines"]:
        for end, found in line["ends"].items():
            if found:
                yield {"unit_uid": record.uid, "rule": line["id"], "end": end,
                       "kind": line["kind"], "title": line["title"], "used": line["used"],
                       **{name: found.get(name) for name in ("value", "low", "high")}}


def _grades(record: Record) -> Iterator[Mapping[str, Any]]:
    for number, result in enumerate(record.report["safety"]["results"], 1):
        yield {"unit_uid": record.uid, "number": number, **result}


def _findings(record: Record) -> Iterator[Mapping[str, Any]]:
    for found in record.report["safety"]["findings"]:
        yield {"unit_uid": record.uid, **found}


def _replies(record: Record) -> Iterator[Mapping[str, Any]]:
    for number, reply in enumerate(record.replies, 1):
        yield {"unit_uid": record.uid, "number": number, **reply}


def _columns(*said: tuple[str, str, str]) -> tuple[Column, ...]:
    return tuple(Column(*one) for one in said)


def _evidence_table(name):
    schema = row_schema(name)["properties"]
    columns = [_column(field, schema[field]) for field in schema if field not in NOT_EXPORTED]
    rows = _list(name)
    if name == "measurements":
        columns.append(Column("unit", "string", "Unit of the value; 1 is a number without one."))
        rows = _measurements
    title = unit_schema()["properties"][name].get("description", name.replace("_", " "))
    return Table(name, title, (OF_UNIT, *columns), ("unit_uid", "key"), rows)


def _evidence_tables():
    for name in EVIDENCE:
        table = _evidence_table(name)
        if name == "stack":               # layers have a place, and no key in old documents
            table = Table(table.name, table.title, table.columns, ("unit_uid", "position"),
                          table.rows)
        yield table


TABLES: tuple[Table, ...] = (
    Table("units", "Public records, one row for the specimen that each describes.", (
        *_columns(("unit", "integer", "Number of its page."),
                  ("version", "integer", "Number of the version that stands."),
                  ("published_at", "string", "When that version was published, ISO 8601."),
                  ("address", "string", "Lasting address of that version.")),
        *_unit_columns(),
        *_columns(("verdict", "string", "Of its largest power claim; see verdicts."),
                  ("claimed_power", "number", "Largest power claim. [W]"),
                  ("plausibility", "number", "Of that claim, 0 to 1."),
                  ("risk", "string", "Gravest level among its findings."),
                  ("rulebook", "string", "Version of the rules that judged it."),
                  ("evidence_digest", "string", "SHA-256 of the evidence that counted."),
                  ("measurements_licence", "string", "Name of the SPDX list; empty: not stated."),
                  ("works_licence", "string", "Of texts and photos; empty: not stated.")),
    ), ("uid",), _units),
    *_evidence_tables(),
    Table("verdicts", "What the confirmed evidence says of each claim.", (OF_UNIT, *_columns(
        ("claim", "string", "Key of the claim, see claims."),
        ("kind", "string", "Kind of claim."), ("voltage", "number", "Claimed. [V]"),
        ("current", "number", "Claimed. [A]"), ("power", "number", "Claimed. [W]"),
        ("plausibility", "number", "0 to 1; 0.5 without evidence."),
        ("verdict", "string", "The word that the site prints."),
        ("total_decibans", "number", "Weight of all evidence, 10 log10 of the odds it moves."),
    )), ("unit_uid", "claim"), _verdicts),
    Table("capabilities", "What each unit can deliver continuously, as its evidence tells.", (
        OF_UNIT, *_columns(
            ("end", "string", "low or high end of the rated mains range."),
            ("mains_voltage", "number", "[V]"), ("mains_frequency", "number", "[Hz]"),
            ("median", "number", "[W]"), ("low", "number", "5 % quantile. [W]"),
            ("high", "number", "95 % quantile. [W]"))), ("unit_uid", "end"), _capabilities),
    Table("lines", "Lines of evidence about power and voltage.", (OF_UNIT, *_columns(
        ("rule", "string", "Rule of the method."), ("end", "string", "End of the mains range."),
        ("kind", "string", "limit, practice or test."), ("title", "string", ""),
        ("used", "boolean", "Whether it took part."),
        ("value", "number", "Unit of the line: see the method."), ("low", "number", ""),
        ("high", "number", ""))), ("unit_uid", "rule", "end"), _lines),
    Table("grades", "What each rule about safety says of each path, winding and part.", (
        OF_UNIT, *_columns(
            ("number", "integer", "Place among the unit’s grades."),
            ("rule", "string", "Rule of the method."), ("title", "string", ""),
            ("on", "string", "path, adjacency, part or unit."), ("subject", "string", ""),
            ("hazard", "string", "What a shortfall can lead to."),
            ("grade", "string", "meets, falls short or cannot tell."),
            ("value", "number", "Measured, in the unit named beside."), ("u", "number", ""),
            ("unit", "string", ""), ("low", "number", "Required at the lenient end."),
            ("high", "number", "Required at the demanding end."),
            ("confidence", "string", "A two published sources, B one, C from memory."),
        )), ("unit_uid", "number"), _grades),
    Table("findings", "Hazards that come from what falls short, with their risk level.", (
        OF_UNIT, *_columns(
            ("scenario", "string", "Scenario of the method."), ("title", "string", ""),
            ("level", "string", "Risk level."), ("certainty", "number", "That it falls short."),
        )), ("unit_uid", "scenario"), _findings),
    Table("replies", "Statements of makers and sellers, checked for whom they speak.", (
        OF_UNIT, *_columns(
            ("number", "integer", "Place among the record’s replies."),
            ("about", "string", "What it answers; empty: the whole record."),
            ("by", "string", "For whom it speaks."), ("version", "integer", ""),
            ("received", "string", "Day, ISO 8601."), ("language", "string", ""),
            ("text", "string", ""), ("disputes", "boolean", "Whether it disputes a figure."),
            ("answer", "string", "What came of the dispute."))), ("unit_uid", "number"), _replies),
)
