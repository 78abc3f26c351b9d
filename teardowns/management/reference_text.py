"""A proposed reference set on a terminal: what was learned, from how many, and what it moves."""
from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

import numpy as np

from teardowns.engine import rulebook
from teardowns.engine.habits import LEAST_RANGE, LEAST_UNITS
from teardowns.engine.rule import Rule
from teardowns.engine.wording import rounded
from teardowns.management.terminal import plain
from teardowns.services.active_rulebook import rulebook_with
from teardowns.services.rebuild_reference_set import Moved, Proposal


def print_proposal(proposal: Proposal, moved: Iterable[Moved]) -> str:
    return "\n".join([*_head(proposal), "", *_habits(proposal), *_excluded(proposal), "",
                      *_moves(list(moved))]) + "\n"


def _head(proposal) -> Iterator[str]:
    stored, active = proposal.stored, proposal.active
    state = "in force" if proposal.is_active else "not in force"
    yield f"Reference set {stored.version} ({state})"
    yield f"In force: {active.version if active else 'none, the habits of the rulebook'}"
    yield (f"{len(stored.units)} published units whose capability was measured, "
           f"{len(stored.excluded)} not used")


def _habits(proposal) -> Iterator[str]:
    before, after = rulebook_with(proposal.active), rulebook_with(proposal.stored)
    for rule_id, count in proposal.sized.items():
        yield f"{before[rule_id].title} ({rule_id}): {count} units with this size"
        learned = proposal.stored.habits.get(rule_id)
        if learned is None:
            yield (f"  no fit: it takes {LEAST_UNITS} units, a factor of {LEAST_RANGE:g} in size, "
                   "and more power with more size")
        else:
            yield (f"  n {learned['n']}, {rounded(learned['smallest'])} to "
                   f"{rounded(learned['largest'])} {learned['unit']}, slope "
                   f"{rounded(learned['slope'])}, residual sd {rounded(learned['residual_sd'])}")
        for size in _sizes(before[rule_id], learned):
            yield (f"  {rounded(size):>6} {before[rule_id].habit.unit}: "
                   f"{_at(before[rule_id], size)} → {_at(after[rule_id], size)}")


def _sizes(rule: Rule, learned) -> list[float]:
    """Where old and new are compared: across the units of the fit, else along the prior."""
    if learned is None:
        return [size for size, _ in rulebook.load()[rule.id].habit.points]
    return np.geomspace(learned["smallest"], learned["largest"], 3).tolist()


def _at(rule: Rule, size):
    """The power that a habit speaks of, with its spread as a factor."""
    watts, spread = (float(of(np.array([size]))[0]) for of in (rule.habit.power, rule.habit.spread))
    return f"{rounded(watts)} W ×/÷ {rounded(float(np.exp(spread)))}"


def _excluded(proposal) -> Iterator[str]:
    reasons = Counter(proposal.stored.excluded.values())
    if reasons:
        yield "Not used:"
        yield from (f"  {count:>4}  {reason}" for reason, count in sorted(reasons.items()))


def _moves(moved) -> Iterator[str]:
    if not moved:
        yield "No verdict on a largest claim would change its word."
        return
    yield "Verdicts on the largest claim that would change:"
    for each in moved:
        (old, p), (new, q) = each.before, each.after
        yield f"  {each.pk}  {plain(each.title)}: {old} ({p:.2f}) → {new} ({q:.2f})"
