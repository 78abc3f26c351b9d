"""The habits as measured units taught them, in place of the rulebook's priors."""
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from .claims import ClaimTable
from .columns import exact
from .defaults import fill_conditioned, fill_defaults
from .evidence import EvidenceTable, pool_evidence
from .habits import LearnedHabit, ReferencedHabit
from .lines import is_observed
from .rule import by_habit
from .rulebook import Rulebook
from .wording import rounded


@dataclass(frozen=True, slots=True)
class ReferenceSet:
    """version : part of the rulebook's version from then on; habits : by rule id"""

    version: str
    habits: Mapping[str, LearnedHabit] = field(default_factory=dict)


def with_reference(rulebook: Rulebook, reference: ReferenceSet | None) -> Rulebook:
    """The rulebook, as loaded, with habits replaced by the set's; None leaves it as it is.

    A habit of a rule that the rulebook no longer has, or now measures in another unit, is not
    used: the prior stands.
    """
    if reference is None:
        return rulebook
    power, voltage = (
        tuple(_referenced(rule, reference) for rule in rules)
        for rules in (rulebook.power, rulebook.voltage))
    return replace(rulebook, power=power, voltage=voltage, reference=reference.version)


@np.errstate(invalid="ignore", divide="ignore")
def habit_sizes(rulebook: Rulebook, evidence: EvidenceTable, claims: ClaimTable,
                mains_voltage: np.ndarray, output_voltage: np.ndarray) -> dict[str, np.ndarray]:
    """By rule id, (n,) the sizes from which habits follow; NaN where nobody observed one.

    mains_voltage, output_voltage : (n,) during the test of the capability, NaN = not stated [V]
    """
    frame = fill_defaults(pool_evidence(evidence), claims)
    frame = fill_conditioned(frame.with_columns({
        "mains_voltage": exact(mains_voltage).filled(frame["mains_low"]),
        "output_voltage": exact(output_voltage)}))
    return {rule.id: _size(rule, frame) for rule in rulebook.lines if rule.habit is not None}


def _size(rule, frame):
    columns = [frame[code] for code in rule.reads]
    size = rule.size(*(column.value for column in columns))
    return np.where(is_observed(rule, columns), size, np.nan)


def _referenced(rule, reference):
    learned = reference.habits.get(rule.id)
    if learned is None or rule.habit is None or learned.unit != rule.habit.unit:
        return rule
    habit = ReferencedHabit(learned, rule.habit)
    compute, spread = by_habit(rule.size, habit)
    return replace(rule, compute=compute, spread=spread, habit=habit,
                   source=_source(rule, learned, reference.version),
                   formula=learned.formula(rule.habit.symbol))


def _source(rule, learned, version):
    return (f"Robust fit (Huber) to {learned.n} published units whose capability was measured, "
            f"{rounded(learned.smallest)} to {rounded(learned.largest)} {learned.unit}, reference "
            f"set {version}; below half and above twice that range the rulebook's own habit: "
            f"{rule.source}")
