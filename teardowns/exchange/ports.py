"""The ports of the units as a table, and which of them a claim is about."""
from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from teardowns.engine.ports import PortTable
from teardowns.exchange.document import is_sellers_word, witnesses
from teardowns.exchange.observations import is_recorded, ports_of
from teardowns.exchange.observing.ports import advertised_by

Document = Mapping[str, Any]
NO_PORT = -1                # of the unit as a whole, or not decided
WORDS = (("usb_c", r"\b(usb|type)[ -]?c\d?\b"), ("usb_a", r"\b(usb|type)[ -]?a\d?\b"))


@dataclass(frozen=True, slots=True)
class ClaimedPort:
    number: int             # the place of the port within its unit, NO_PORT where not decided
    connector: str          # code of its kind, "" where not decided


def port_table(documents: Sequence[Document], confirmed_only: bool) -> PortTable:
    """One row a port. One that is disputed, unread or told by the seller alone keeps its number and
    loses its facts."""
    rows = [(index, port, is_recorded(port) and witnesses(port, confirmed_only))
            for index, document in enumerate(documents) for port in ports_of(document)]
    words = np.empty(len(rows), object)
    words[:] = [advertised_by(port) if speaks else () for _, port, speaks in rows]

    def names(of):
        return np.array([of(port) if speaks else "" for _, port, speaks in rows], dtype=str)

    return PortTable(
        row=np.array([index for index, _, _ in rows], np.int64),
        label=np.array([port["label"] for _, port, _ in rows], dtype=str),
        connector=names(_contacts), wiring=names(lambda port: port["wiring"]), words=words,
    )


def port_numbers(document: Document) -> dict[str, int]:
    """The number of each port by its key."""
    return {port["key"]: number for number, port in enumerate(ports_of(document))}


def claimed_port(claim: Mapping[str, Any], document: Document) -> ClaimedPort:
    """The port that an output claim names, by label, key or kind of connector.

    A power that ports share, or that the unit gives in total, is of none, unless it names one: its
    part of "30 W + 20 W", or a total in the line of a port.
    """
    ports = list(enumerate(ports_of(document)))
    if claim.get("shared") or claim["kind"] != "output":
        ports = _named(claim["port"], ports)
        if not ports:
            return ClaimedPort(NO_PORT, "")
    meant = ports if not claim["port"] else _named(claim["port"], ports)
    kinds = {_contacts(port) for _, port in meant
             if is_recorded(port) and not is_sellers_word(port)}
    if claim["port"] and not meant:
        kinds = _kinds_in_words(claim["port"])
        meant = [(number, port) for number, port in ports if port["connector"] in kinds]
    return ClaimedPort(meant[0][0] if len(meant) == 1 else NO_PORT,
                       kinds.pop() if len(kinds) == 1 else "")


def _named(name, ports):
    return [(number, port) for number, port in ports
            if name.casefold() in (port["label"].casefold(), port["key"])]


def _kinds_in_words(name):
    return {kind for kind, word in WORDS if re.search(word, name, re.I)}


def _contacts(port):
    """The connector's code, with what was found of its contacts."""
    high = port["connector"] == "usb_a" and port.get("high_current_contacts")
    return "usb_a_high_current" if high else port["connector"]
