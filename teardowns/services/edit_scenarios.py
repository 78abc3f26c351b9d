"""A moderator changes how likely the steps of a scenario are: a new numbered set, with a reason.

A set is written and never changed, and counts only from when it is put in force. Nothing changes
silently: the set stands in the rulebook's version beside every level, and each time that one was
put in force is kept with who did it and why.
"""
from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from hashlib import sha256

from django.db import IntegrityError, transaction
from django.db.models import Max

from core.accounts.models import Role, User
from core.audit.record import record
from teardowns.engine.scenarios import (
    SCENARIOS,
    Scenario,
    checked_probability,
    read_scenarios,
    written,
)
from teardowns.models import ScenarioSet

OWN = 0                          # number of the rulebook's own scenarios, of which no row is kept
OWN_NAME = "the rulebook’s own"
KEPT, PUT_IN_FORCE = "scenarios_kept", "scenarios_in_force"       # actions of the audit log
WHY_CHANGE = "Write why: the reason stands beside the step from now on."
WHY_FORCE = "Write why this set should count: the reason stays in the history."
MEANWHILE = ("Meanwhile {} was put in force. Look once more at what changes, then send it again.")
AT_ONCE = "Another change came in at the same moment. Send yours again: nothing of it is lost."


class ScenarioError(Exception):
    """The change cannot be kept; `errors` says by name of a field why and what to do."""

    def __init__(self, errors: dict[str, str]):
        super().__init__("; ".join(errors.values()))
        self.errors = errors


@dataclass(frozen=True, slots=True)
class Choice:
    """A set of scenarios to look at: a stored one, or the rulebook's own."""

    number: int
    name: str
    scenarios: tuple[Scenario, ...]
    stored: ScenarioSet | None = None


RULEBOOKS_OWN = Choice(OWN, OWN_NAME, SCENARIOS)


def scenarios_in_force() -> Choice:
    """The scenarios that count here."""
    return _choice(ScenarioSet.objects.filter(is_active=True).first())


def numbered_scenarios(number: int) -> Choice | None:
    """The set of that number; None where there is none."""
    if number == OWN:
        return RULEBOOKS_OWN
    stored = ScenarioSet.objects.filter(number=number).first()
    return _choice(stored) if stored else None


def _choice(stored):
    if stored is None:
        return RULEBOOKS_OWN
    return Choice(stored.number, stored.version, read_scenarios(stored.scenarios), stored)


def edit_scenario(author: User, base: Choice, scenario_id: str, typed: Mapping[str, str],
                  reason: str) -> ScenarioSet:
    """A new set, not in force yet: `base` with other probabilities for one scenario's steps.

    typed : by key of a step, the text of its probability; ScenarioError leaves all as it was
    """
    _may_curate(author)
    chosen = next((one for one in base.scenarios if one.id == scenario_id), None)
    if chosen is None:
        raise ScenarioError({"scenario": "There is no such scenario: choose one of the list."})
    changed = _changed(chosen, typed, reason.strip(), author)
    rows = [changed if one.id == scenario_id else one for one in base.scenarios]
    try:
        return _keep(author, base, scenario_id, rows, reason.strip())
    except IntegrityError:
        raise ScenarioError({"reason": AT_ONCE}) from None


def put_in_force(author: User, chosen: Choice, reason: str, instead_of: str) -> None:
    """This set counts from now on.

    instead_of : name of the set that its author saw in force; ScenarioError when another is by now
    """
    _may_curate(author)
    if not reason.strip():
        raise ScenarioError({"reason": WHY_FORCE})
    try:
        _switch(author, chosen, reason.strip(), instead_of)
    except IntegrityError:
        raise ScenarioError({"reason": AT_ONCE}) from None


def _may_curate(author):
    if not author.has_role(Role.MODERATOR):
        raise PermissionError("Only a moderator changes scenarios.")


def _changed(chosen, typed, reason, author):
    errors, steps = {}, []
    for step in chosen.steps:
        text = typed.get(step.key, step.p).strip()
        try:
            p = checked_probability(text, step.text)
        except ValueError as error:
            errors[step.key] = str(error)
            continue
        moved = p != checked_probability(step.p, step.text)
        steps.append(replace(step, p=text, by=author.get_username(), why=reason) if moved
                     else step)
    if not reason:
        errors["reason"] = WHY_CHANGE
    if not errors and tuple(steps) == chosen.steps:
        errors["reason"] = "Nothing was changed: write another probability for a step."
    if errors:
        raise ScenarioError(errors)
    return replace(chosen, steps=tuple(steps))


@transaction.atomic
def _keep(author, base, scenario_id, rows, reason):
    stored = written(rows)
    text = json.dumps(stored, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    number = (ScenarioSet.objects.aggregate(most=Max("number"))["most"] or OWN) + 1
    made = ScenarioSet.objects.create(
        number=number, digest=sha256(text.encode()).hexdigest(), scenarios=stored, author=author,
        reason=reason)
    record(author, KEPT, reason=reason, set=made.version, made_from=base.name,
           scenario=scenario_id)
    return made


@transaction.atomic
def _switch(author, chosen, reason, instead_of):
    before = ScenarioSet.objects.select_for_update().filter(is_active=True).first()
    name = before.version if before else OWN_NAME
    if name == chosen.name:
        raise ScenarioError({"reason": "This set is in force already."})
    if name != instead_of:
        raise ScenarioError({"reason": MEANWHILE.format(name)})
    if before:
        ScenarioSet.objects.filter(pk=before.pk).update(is_active=False)
    if chosen.stored:
        ScenarioSet.objects.filter(pk=chosen.stored.pk).update(is_active=True)
    record(author, PUT_IN_FORCE, reason=reason, set=chosen.name, instead_of=name)
