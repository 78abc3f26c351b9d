"""From documents to the tables the engine reads, for many units at once."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import nan
from typing import Any

import numpy as np

from teardowns.engine.claims import ClaimTable
from teardowns.engine.evidence import INDEX, EvidenceTable
from teardowns.engine.port_trips import ALL_PORTS
from teardowns.engine.ports import PortTable
from teardowns.engine.subjects import Subjects
from teardowns.exchange.document import counts
from teardowns.exchange.observations import Observation, is_recorded, observations
from teardowns.exchange.observing.observation import ALL
from teardowns.exchange.ports import NO_PORT, claimed_port, port_numbers, port_table
from teardowns.exchange.subjects import subject_tables

Document = Mapping[str, Any]
AND = " + "                 # between the refs that one number rests on
JUDGED = ("output", "total", "listing")
NO_SCALE = -1


@dataclass(frozen=True, slots=True)
class Tables:
    """What the engine reads, and the names of what it read.

    refs[evidence_id], refs[claim_id]: the rows behind a number; "0:measurement/mass" is a row of
    the first document, several rows are joined by AND.
    """

    evidence: EvidenceTable
    claims: ClaimTable
    refs: tuple[str, ...]
    ports: PortTable
    subjects: Subjects


@dataclass(frozen=True, slots=True)
class _Seen:
    """An observation in its place: unit, quantity, refs, and the numbers of port and scale."""

    row: int
    code: int
    ref: int
    port: int
    scale: int
    observation: Observation


def engine_tables(documents: Sequence[Document], confirmed_only: bool = False) -> Tables:
    """Tables of full documents, one unit each, in their order; disputed rows do not take part."""
    refs: dict[str, int] = {}
    seen, said = [], []
    for index, document in enumerate(documents):
        ports = port_numbers(document) | {ALL: ALL_PORTS}
        photos = {photo["key"]: number for number, photo in enumerate(document["photos"])}
        for observation in observations(document, confirmed_only):
            ref = f"{index}:{AND.join(observation.refs)}"
            seen.append(_Seen(
                index, INDEX[observation.code], refs.setdefault(ref, len(refs)),
                ports.get(observation.port, NO_PORT), photos.get(observation.photo, NO_SCALE),
                observation))
        for row in judged_claims(document, confirmed_only):
            ref = f"{index}:claim/{row['key']}"
            said.append((index, refs.setdefault(ref, len(refs)), _claim(row, document)))
    seen.sort(key=lambda one: (one.row, one.code, one.ref))
    subjects = subject_tables(documents, refs, confirmed_only)
    return Tables(_evidence(len(documents), seen), _claims(said), tuple(refs),
                  port_table(documents, confirmed_only), subjects)


def refs_behind(ref: str) -> list[str]:
    """The rows that an entry of `refs` names, with or without the index of its document."""
    return ref.split(":", 1)[-1].split(AND)


def judged_claims(document: Document, confirmed_only: bool = False) -> list[Mapping[str, Any]]:
    """The claims about the output that say something in volts, amperes or watts."""
    return [
        row for row in document["claims"]
        if row["kind"] in JUDGED and is_recorded(row) and counts(row, confirmed_only)
        and (_power(row) or (row["kind"] != "listing" and _voltage(row)))
    ]


def _evidence(n, seen: list[_Seen]) -> EvidenceTable:
    def column(name):
        return np.array([getattr(one.observation, name) for one in seen], float)

    def number(name):
        return np.array([getattr(one, name) for one in seen], np.int64)

    return EvidenceTable(
        units=np.arange(n), row=number("row"), code=number("code"), value=column("value"),
        u=column("u"), mains_voltage=column("mains_voltage"),
        output_voltage=column("output_voltage"), port=number("port"), scale=number("scale"),
        evidence_id=number("ref"),
    )


def _claims(said) -> ClaimTable:
    def column(name, dtype=float):
        return np.array([entry[2][name] for entry in said], dtype=dtype)

    return ClaimTable(
        row=np.array([entry[0] for entry in said], np.int64), kind=column("kind", str),
        voltage=column("voltage"), current=column("current"), power=column("power"),
        connector=column("connector", str), port=column("port", np.int64),
        shared=column("shared", bool), claim_id=np.array([entry[1] for entry in said], np.int64),
    )


def _claim(row, document):
    # A range such as 3.3 to 11 V at 3 A does not say that 11 V and 3 A come together: within the
    # range the source may hold its power. Without a printed power it claims the voltage only.
    is_range = row.get("voltage_low", nan) < row.get("voltage_high", nan)
    port = claimed_port(row, document)
    return {
        "kind": row["kind"], "voltage": _voltage(row) or nan,
        "current": nan if is_range and not _power(row) else row.get("current") or nan,
        "power": row.get("power") or nan, "connector": port.connector, "port": port.number,
        # A total that names ports is one of these ports only, not of the unit.
        "shared": row.get("shared", False) if row["kind"] == "output" else row["port"] != "",
    }


def _voltage(row):
    return row.get("voltage_high", row.get("voltage_low"))


def _power(row):
    return row.get("power")
