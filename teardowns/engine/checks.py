"""Consistency checks: one claim, port or unit, one rule, one outcome with a sentence."""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from .claims import ClaimTable
from .columns import Frame
from .outcome import Outcome
from .ports import PortTable
from .rule import Rule
from .rulebook import Rulebook
from .subjects import TEXT, UNIT

NOT_KNOWN = {name: "" if column.kind == TEXT else np.nan for name, column in UNIT.items()}


@dataclass(frozen=True, slots=True)
class Subject:
    """What a check is about: facts by name, and where to read quantities."""

    on: str                        # "claim", "port" or "unit"
    facts: Mapping
    claim: int | None = None       # index into the claims
    port: int | None = None        # index into the ports


@dataclass(frozen=True, slots=True)
class Checked:
    rule: Rule
    subject: Subject
    outcome: Outcome


def claim_facts(claims: ClaimTable, index: int, ports: PortTable) -> dict:
    """What a check may read of a claim: NaN, "" or () where nothing is printed or recorded."""
    at = _port_of(claims, index, ports)
    return {
        "claim_voltage": float(claims.voltage[index]),
        "claim_current": float(claims.current[index]),
        "claim_power": float(claims.claimed_power[index]),
        "claim_printed_power": float(claims.power[index]),
        "claim_connector": str(claims.connector[index]),
        "claim_kind": str(claims.kind[index]),
        "claim_shared": bool(claims.shared[index]),
        "claim_port": "" if at is None else str(ports.label[at]),
        "claim_wiring": "" if at is None else str(ports.wiring[at]),
        "claim_words": () if at is None else tuple(ports.words[at]),
        "claim_outlets": 1 if at is not None else _outlets(claims, index, ports),
    }


def _outlets(claims, index, ports):
    """How many ports a claim of no single one may mean: of its connector, where it has one."""
    mine = ports.connector[list(ports.of(int(claims.row[index])))]
    return int(np.isin(mine, (claims.connector[index], "")).sum()
               if claims.connector[index] else len(mine))


def _port_of(claims, index, ports):
    """The row of the claim's port; a unit of one port has no other."""
    mine = ports.of(int(claims.row[index]))
    number = int(claims.port[index])
    if number >= 0:
        return mine[number] if number < len(mine) else None
    alone = len(mine) == 1 and not claims.shared[index]
    return mine[0] if alone else None


def port_facts(claims: ClaimTable, ports: PortTable, port: int) -> dict:
    """What a check may read of a port, and what is claimed at it."""
    here = [i for i in range(len(claims.row)) if _port_of(claims, i, ports) == port]
    return {
        "port_label": str(ports.label[port]), "port_connector": str(ports.connector[port]),
        "port_wiring": str(ports.wiring[port]), "port_words": tuple(ports.words[port]),
        "port_voltages": tuple(float(claims.voltage[i]) for i in here),
        "port_currents": tuple(float(claims.current[i]) for i in here),
        "port_powers": tuple(float(claims.claimed_power[i]) for i in here),
    }


def unit_facts(claims: ClaimTable, ports: PortTable) -> dict:
    """What a check may read of all claims of a unit, claim by claim."""
    labels = [_port_of(claims, i, ports) for i in range(len(claims.row))]
    return {
        "claimed_voltages": tuple(claims.voltage.tolist()),
        "claimed_currents": tuple(claims.current.tolist()),
        "claimed_powers": tuple(claims.claimed_power.tolist()),
        "claimed_kinds": tuple(claims.kind.tolist()),
        "claimed_ports": tuple("" if at is None else str(ports.label[at]) for at in labels),
        "claimed_shared": tuple(claims.shared.tolist()),
        "port_count": len(ports.of(0)),
    }


def subjects(claims: ClaimTable, ports: PortTable,
             unit: Mapping = NOT_KNOWN) -> Iterator[Subject]:
    """All that can be checked of one unit. claims, ports : of this unit, rows 0"""
    yield Subject("unit", unit_facts(claims, ports) | dict(unit))
    for port in ports.of(0):
        yield Subject("port", port_facts(claims, ports, port), port=port)
    for index in range(len(claims.row)):
        at = _port_of(claims, index, ports)
        yield Subject("claim", claim_facts(claims, index, ports), claim=index, port=at)


@np.errstate(invalid="ignore", divide="ignore", over="ignore")   # unknown is NaN, not a warning
def run_check(rule: Rule, frame: Frame, row: int, facts: Mapping) -> Outcome | None:
    """The check's outcome for one subject; None where there is nothing to check."""
    return rule.compute(*(
        facts[name] if name in facts else frame[name].value[row] for name in rule.reads))


def run_checks(rules: Rulebook, frames: Mapping[int | None, Frame], claims: ClaimTable,
               ports: PortTable, unit: Mapping | None = None) -> Iterator[Checked]:
    """Every check of one unit.

    unit : facts of the unit by name of subjects.UNIT; None where nothing is known
    frames : by number of the port, None for the unit: one row each, with what was observed there
    claims, ports : of this unit, rows 0
    """
    about = list(subjects(claims, ports, unit or NOT_KNOWN))
    for rule in rules.checks:
        for subject in about:
            if subject.on == rule.on:
                frame = frames[subject.port if subject.port in frames else None]
                if (outcome := run_check(rule, frame, 0, subject.facts)) is not None:
                    yield Checked(rule, subject, outcome)
