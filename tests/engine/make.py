"""Small tables for tests: rows of evidence and claims as tuples."""
import numpy as np

from teardowns.engine import rulebook
from teardowns.engine.claims import ClaimTable
from teardowns.engine.evidence import INDEX, EvidenceTable
from teardowns.engine.pipeline import assess

NAN = float("nan")
WIDE = (("rated_voltage_low", 100.0, 0.0), ("rated_voltage_high", 240.0, 0.0),
        ("rated_frequency", 50.0, 0.0))


def evidence_table(*units):
    """One list of (code, value, u[, mains voltage[, output voltage]]) a unit."""
    rows = sorted((row, INDEX[code], value, *rest) for row, unit in enumerate(units)
                  for code, value, *rest in unit)
    padded = [(*row, NAN, NAN)[:6] for row in rows]
    row, code, *floats = zip(*padded, strict=True) if padded else [()] * 6
    return EvidenceTable(np.arange(len(units)), np.array(row, int), np.array(code, int),
                         *(np.array(column, float) for column in floats), np.arange(len(rows)))


def claim_table(*units):
    """One list of (voltage, current, power[, connector[, kind]]) a unit."""
    rows = [(row, *claim, *("", "output")[len(claim) - 3:])
            for row, unit in enumerate(units) for claim in unit]
    row, voltage, current, power, connector, kind = zip(*rows, strict=True) if rows else [()] * 6
    floats = (np.array(column, float) for column in (voltage, current, power))
    return ClaimTable(np.array(row, int), np.array(kind, dtype=str), *floats,
                      np.array(connector, dtype=str), np.arange(len(rows)))


def judge(observations, claims, book=None):
    """The assessment of one unit."""
    return assess(evidence_table(observations), claim_table(claims), book or rulebook.load())


def watts(power):
    """A claim of nothing but a power."""
    return (NAN, NAN, power)


def weight(assessment, rule_id, claim=0):
    """What a line moved the claim by, in decibans; NaN where it was not used."""
    lines = [rule.id for rule in assessment.rulebook.lines]
    return float(assessment.judged.weights[claim, lines.index(rule_id)])
