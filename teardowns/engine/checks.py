"""Consistency checks: one claim, one rule, one outcome with a sentence."""
from collections.abc import Iterator, Mapping

from .claims import ClaimTable
from .columns import Frame
from .outcome import Outcome
from .rule import Rule
from .rulebook import Rulebook


def claim_facts(claims: ClaimTable, index: int) -> dict:
    """What a check may read of a claim: NaN or "" where nothing is printed."""
    return {
        "claim_voltage": float(claims.voltage[index]),
        "claim_current": float(claims.current[index]),
        "claim_power": float(claims.claimed_power[index]),
        "claim_printed_power": float(claims.power[index]),
        "claim_connector": str(claims.connector[index]),
    }


def run_check(rule: Rule, frame: Frame, row: int, facts: Mapping) -> Outcome | None:
    """The check's outcome for one claim; None where the claim gives it nothing to check."""
    return rule.compute(*(
        facts[name] if name in facts else float(frame[name].value[row]) for name in rule.reads))


def run_checks(rules: Rulebook, frame: Frame, row: int, claims: ClaimTable,
               indices) -> Iterator[tuple[Rule, int, Outcome]]:
    for index in indices:
        facts = claim_facts(claims, index)
        for rule in rules.checks:
            if (outcome := run_check(rule, frame, row, facts)) is not None:
                yield rule, index, outcome

