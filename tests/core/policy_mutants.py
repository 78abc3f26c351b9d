"""Permission lines, each taken away in turn: of the policy, and of `teardowns/access/`."""
from __future__ import annotations

import ast
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from types import FunctionType

from django.db import transaction

from core.accounts.models import Role
from core.policy import ANYONE, POLICY, SIGNED_IN
from teardowns.access import files, library, talk, units
from tests.core.access_lines import without_each_line
from tests.core.policy_expected import PEOPLE
from tests.core.policy_mutations import CHOSEN, EVERY
from tests.core.policy_states import PLAIN_IN
from tests.core.policy_walk import GRID, client_of, differences, read_grid
from tests.core.policy_world import world_in

# Second names of addresses, which no request is resolved to; and views of the package for accounts,
# which lead to the sign-in by themselves: their lines are a second bolt.
ALIASES = {"account_login", "account_logout"}
REFUSES_ITSELF = ("account_", "mfa_", "usersessions_")


@dataclass(frozen=True)
class Mutant:
    name: str
    applied: Callable                  # context manager under which the line is gone
    concerns: tuple[str, str] | None   # the address and method, or None: any that may notice
    function: str = ""                 # of access, in which the line stands


def mutants() -> list[Mutant]:
    return [*_of_policy(), *_of_access()]


def chosen() -> list[Mutant]:
    """Those that the run was asked for."""
    parts = [] if os.environ[CHOSEN] == EVERY else os.environ[CHOSEN].split("\n")
    return [mutant for mutant in mutants()
            if not parts or any(part in mutant.name for part in parts)]


def _of_policy() -> Iterator[Mutant]:
    for name, rules in POLICY.items():
        for method, rule in rules.items():
            if name in ALIASES:
                continue
            others = {"for whoever is signed in": SIGNED_IN} if rule == ANYONE else {
                "for everybody": ANYONE, **_roles(rule), **_standing(rule, method)}
            if name.startswith(REFUSES_ITSELF):
                others.pop("for everybody", None)
            for words, other in others.items():
                yield Mutant(f"{name} {method} {words}", _rule(name, method, other), (name, method))


def _roles(rule):
    changed = {}
    for role in Role:
        has = role in rule.roles
        roles = rule.roles - {role} if has else rule.roles | {role}
        if roles:
            changed[f"{'without' if has else 'with'} {role}"] = replace(rule, roles=roles)
    return changed


def _standing(rule, method):
    if not rule.standing or method == "GET":
        return {}
    return {"without good standing": replace(rule, standing=False)}


def _rule(name, method, other):
    @contextmanager
    def applied():
        before = POLICY[name][method]
        POLICY[name][method] = other
        try:
            yield
        finally:
            POLICY[name][method] = before
    return applied


def _of_access() -> Iterator[Mutant]:
    for module in (files, library, talk, units):
        source = Path(module.__file__).read_text("utf-8")
        for function, words, tree in without_each_line(source):
            yield Mutant(f"access.{function} {words}", _code(module, source, tree), None, function)


def _code(module, source, tree):
    def run(code):
        before = dict(module.__dict__)
        exec(compile(code, module.__file__, "exec"), module.__dict__)
        for name, old in before.items():
            if isinstance(old, FunctionType) and old.__module__ == module.__name__:
                _renew(name, old, module.__dict__[name])

    @contextmanager
    def applied():
        run(tree)
        try:
            yield
        finally:
            run(ast.parse(source))
    return applied


def _renew(name, old, new):
    """Whoever imported the function by its name has the new one."""
    for module in list(sys.modules.values()):
        if getattr(module, "__name__", "").startswith("teardowns.") and \
                module.__dict__.get(name) is old:
            setattr(module, name, new)


def noticed_by(chosen: list[Mutant], folder: Path, states=None) -> dict[str, str]:
    """By name, the first cell that is answered otherwise than the grid says; "" where none is."""
    _, known, lines = read_grid(GRID.read_text("utf-8"))
    found = {mutant.name: "" for mutant in chosen}
    for state in states or (PLAIN_IN, *(each for each in known if each != PLAIN_IN)):
        left = [mutant for mutant in chosen if not found[mutant.name]]
        if left:
            found |= _in_state(state, left, lines, known.index(state), folder / state)
    return found


def _may_notice(mutant, line, state):
    if mutant.concerns is None:          # access is asked about records, which go through states
        return line.varies
    return mutant.concerns == (line.name, line.method) and (line.varies or state == PLAIN_IN)


def _in_state(state, left, lines, at, folder):
    folder.mkdir(exist_ok=True)
    found = {}
    with transaction.atomic():
        world = world_in(state, folder)
        clients = {who: client_of(who, world) for who in PEOPLE}
        for mutant in left:
            asked = [line for line in lines if _may_notice(mutant, line, state)]
            with mutant.applied():
                found[mutant.name] = next(differences(world, clients, asked, at), "")
        transaction.set_rollback(True)
    return found
