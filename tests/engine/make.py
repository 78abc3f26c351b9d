"""Small tables for tests: rows of evidence and claims as tuples."""
import numpy as np

from teardowns.engine import rulebook
from teardowns.engine.claims import ClaimTable
from teardowns.engine.evidence import INDEX, EvidenceTable
from teardowns.engine.pipeline import assess
from teardowns.engine.ports import PortTable

NAN = float("nan")
WIDE = (("rated_voltage_low", 100.0, 0.0), ("rated_voltage_high", 240.0, 0.0),
        ("rated_frequency", 50.0, 0.0))


def evidence_table(*units):
    """One list of (code, value, u[, mains voltage[, output voltage[, port[, scale]]]]) a unit."""
    rows = sorted((row, INDEX[code], value, *rest) for row, unit in enumerate(units)
                  for code, value, *rest in unit)
    padded = [(*row, *(NAN, NAN, -1, -1)[len(row) - 4:]) for row in rows]
    row, code, *rest = zip(*padded, strict=True) if padded else [()] * 8
    return EvidenceTable(np.arange(len(units)), np.array(row, int), np.array(code, int),
                         *(np.array(column, float) for column in rest[:4]),
                         *(np.array(column, int) for column in rest[4:]), np.arange(len(rows)))


def claim_table(*units):
    """One list of (voltage, current, power[, connector[, kind[, port[, shared]]]]) a unit."""
    rows = [(row, *claim, *("", "output", -1, False)[len(claim) - 3:])
            for row, unit in enumerate(units) for claim in unit]
    row, voltage, current, power, connector, kind, port, shared = (
        zip(*rows, strict=True) if rows else [()] * 8)
    floats = (np.array(column, float) for column in (voltage, current, power))
    return ClaimTable(np.array(row, int), np.array(kind, dtype=str), *floats,
                      np.array(connector, dtype=str), np.array(port, int),
                      np.array(shared, bool), np.arange(len(rows)))


def port_table(*units):
    """One list of (label, connector[, wiring[, words]]) a unit."""
    rows = [(row, *port, *("", ())[len(port) - 2:])
            for row, unit in enumerate(units) for port in unit]
    words = np.zeros(len(rows), object)
    words[:] = [row[4] for row in rows]
    row, label, connector, wiring, _ = zip(*rows, strict=True) if rows else [()] * 5
    return PortTable(np.array(row, int), np.array(label, str), np.array(connector, str),
                     np.array(wiring, str), words)


def judge(observations, claims, book=None, ports=()):
    """The assessment of one unit."""
    return assess(evidence_table(observations), claim_table(claims), book or rulebook.load(),
                  port_table(list(ports)))


def watts(power):
    """A claim of nothing but a power."""
    return (NAN, NAN, power)


def weight(assessment, rule_id, claim=0):
    """What a line moved the claim by, in decibans; NaN where it was not used."""
    lines = [rule.id for rule in assessment.rulebook.lines]
    return float(assessment.judged.weights[claim, lines.index(rule_id)])
