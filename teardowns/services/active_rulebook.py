"""The rulebook as it counts on this site: with the habits of the active reference set."""
from __future__ import annotations

from typing import Any

from teardowns.engine import reference_set, rulebook
from teardowns.engine.habits import LearnedHabit
from teardowns.engine.rulebook import Rulebook
from teardowns.models import ReferenceSet


def active_rulebook() -> Rulebook:
    return rulebook_with(ReferenceSet.objects.filter(is_active=True).first())


def rulebook_beside(unit: Any) -> Rulebook:
    """The same, by a unit that came `with_active_set`; asks nothing more of the database."""
    if unit.active_number is None:
        return rulebook_with(None)
    return rulebook_with(ReferenceSet(number=unit.active_number, digest=unit.active_digest,
                                      habits=unit.active_habits))


def rulebook_with(stored: ReferenceSet | None) -> Rulebook:
    """The rulebook with a stored set; None leaves its own habits."""
    if stored is None:
        return rulebook.load()
    habits = {rule_id: LearnedHabit(**fields) for rule_id, fields in stored.habits.items()}
    reference = reference_set.ReferenceSet(stored.version, habits)
    return reference_set.with_reference(rulebook.load(), reference)
