"""From documents to the tables the engine reads, for many units at once."""
from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import nan
from typing import Any

import numpy as np

from teardowns.engine.claims import ClaimTable
from teardowns.engine.evidence import INDEX, EvidenceTable
from teardowns.exchange.document import counts
from teardowns.exchange.observations import Observation, is_recorded, observations

Document = Mapping[str, Any]
AND = " + "                 # between the refs that one number rests on
JUDGED = {"output": "output", "total": "total", "listing": "total"}
WORDS = (("usb_c", r"\b(usb|type)[ -]?c\d?\b"), ("usb_a", r"\b(usb|type)[ -]?a\d?\b"))


@dataclass(frozen=True, slots=True)
class Tables:
    """What the engine reads, and the names of what it read.

    refs[evidence_id], refs[claim_id]: the rows behind a number; "0:measurement/mass" is a row of
    the first document, several rows are joined by AND.
    """

    evidence: EvidenceTable
    claims: ClaimTable
    refs: tuple[str, ...]


def engine_tables(documents: Sequence[Document], confirmed_only: bool = False) -> Tables:
    """Tables of full documents, one unit each, in their order; disputed rows do not take part."""
    refs: dict[str, int] = {}
    seen, said = [], []
    for index, document in enumerate(documents):
        for observation in observations(document, confirmed_only):
            ref = f"{index}:{AND.join(observation.refs)}"
            seen.append((index, INDEX[observation.code], refs.setdefault(ref, len(refs)),
                         observation))
        for row in judged_claims(document, confirmed_only):
            ref = f"{index}:claim/{row['key']}"
            said.append((index, refs.setdefault(ref, len(refs)), _claim(row, document)))
    seen.sort(key=lambda entry: entry[:3])
    return Tables(_evidence(len(documents), seen), _claims(said), tuple(refs))


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


def _evidence(n, seen: list[tuple[int, int, int, Observation]]) -> EvidenceTable:
    def column(name):
        return np.array([getattr(entry[3], name) for entry in seen], float)

    row, code, ids = (np.array([entry[j] for entry in seen], np.int64) for j in range(3))
    return EvidenceTable(
        units=np.arange(n), row=row, code=code, value=column("value"), u=column("u"),
        mains_voltage=column("mains_voltage"), output_voltage=column("output_voltage"),
        evidence_id=ids,
    )


def _claims(said) -> ClaimTable:
    def column(name):
        return np.array([entry[2][name] for entry in said], float)

    def words(name):
        return np.array([entry[2][name] for entry in said], dtype=str)

    return ClaimTable(
        row=np.array([entry[0] for entry in said], np.int64), kind=words("kind"),
        voltage=column("voltage"), current=column("current"), power=column("power"),
        connector=words("connector"), claim_id=np.array([entry[1] for entry in said], np.int64),
    )


def _claim(row, document):
    # A range such as 3.3 to 11 V at 3 A does not say that 11 V and 3 A come together: within the
    # range the source may hold its power. Without a printed power it claims the voltage only.
    is_range = row.get("voltage_low", nan) < row.get("voltage_high", nan)
    return {
        "kind": JUDGED[row["kind"]], "voltage": _voltage(row) or nan,
        "current": nan if is_range and not _power(row) else row.get("current") or nan,
        "power": row.get("power") or nan, "connector": _connector(row, document["ports"]),
    }


def _voltage(row):
    return row.get("voltage_high", row.get("voltage_low"))


def _power(row):
    return row.get("power")


def _contacts(port):
    """The connector's code, with what was found of its contacts."""
    high = port["connector"] == "usb_a" and port.get("high_current_contacts")
    return "usb_a_high_current" if high else port["connector"]


def _connector(row, ports):
    """The kind of connector a claim is about; "" where the document does not decide it."""
    kinds = {_contacts(port) for port in ports if is_recorded(port)}
    if row.get("shared") or row["kind"] != "output":
        return ""
    if not row["port"]:
        return kinds.pop() if len(kinds) == 1 else ""
    named = {_contacts(port) for port in ports
             if row["port"].casefold() in (port["label"].casefold(), port["key"])}
    meant = named or {kind for kind, word in WORDS if re.search(word, row["port"], re.I)}
    return meant.pop() if len(meant) == 1 else ""
