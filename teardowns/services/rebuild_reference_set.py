"""Let measured units teach the practice lines: a proposal first, in force only when activated."""
from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from hashlib import sha256
from math import nan
from typing import Any

import numpy as np
from django.db import transaction
from django.db.models import Max

from core.accounts.models import User
from teardowns.engine import rulebook
from teardowns.engine.claims import largest_by_unit
from teardowns.engine.habits import fit
from teardowns.engine.reference_set import habit_sizes
from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.measured_capability import NotMeasured, measured_capability
from teardowns.exchange.tables import engine_tables
from teardowns.exchange.verdict import verdicts
from teardowns.models import AuditEntry, ReferenceSet, Unit

from .active_rulebook import rulebook_with
from .export_unit import unit_documents

SLICE = 100         # documents at a time, so that memory does not grow with the database


@dataclass(frozen=True)
class Proposal:
    """What the published units teach now, beside what is in force."""

    stored: ReferenceSet              # not saved when it is new
    active: ReferenceSet | None
    sized: dict[str, int]             # by rule id, units with a measured capability and this size

    @property
    def is_active(self) -> bool:
        return self.stored.is_active

    @property
    def says_nothing(self) -> bool:
        """No habit was learned, and none is in force."""
        return not self.stored.habits and self.active is None


@dataclass(frozen=True)
class Moved:
    """A unit whose largest claim is judged in another word."""

    pk: int
    title: str
    before: tuple[str, float]         # verdict, plausibility
    after: tuple[str, float]


def propose_reference_set() -> Proposal:
    """Fit every habit to the published units whose capability was measured; stores nothing."""
    measured, excluded, sizes = _gathered()
    uids = sorted(measured)
    powers = [measured[uid]["power"] for uid in uids]
    habits, sized = {}, {}
    for rule_id, found in sorted(sizes.items()):
        column = [found.get(uid, nan) for uid in uids]
        sized[rule_id] = int(np.isfinite(column).sum())
        learned = fit(rulebook.load()[rule_id], column, powers)
        if learned is not None:
            habits[rule_id] = asdict(learned)
    units = {uid: measured[uid] for uid in uids}
    active = ReferenceSet.objects.filter(is_active=True).first()
    return Proposal(_stored(habits, units, excluded), active, sized)


@transaction.atomic
def activate_reference_set(stored: ReferenceSet, author: User | None) -> bool:
    """Put a proposed set into force; False when it is in force already.

    Assessments are not touched: each is made anew when its unit is next assessed.
    """
    if stored.is_active:
        return False
    ReferenceSet.objects.select_for_update().filter(is_active=True).update(is_active=False)
    stored.is_active = True
    if stored.pk is None:
        stored.author = author
    stored.save()
    AuditEntry.objects.create(actor=author, action="reference_set_activated",
                              detail={"version": stored.version})
    return True


def moved_by(proposal: Proposal) -> Iterator[Moved]:
    """The published units whose largest claim gets another word under the proposed set."""
    before, after = rulebook_with(proposal.active), rulebook_with(proposal.stored)
    for units, documents in _published():
        pairs = zip(units, _headlines(documents, before), _headlines(documents, after),
                    strict=True)
        for unit, old, new in pairs:
            if old and new and old[0] != new[0]:
                yield Moved(unit.pk, unit.title, old, new)


def _headlines(documents, rules: Rulebook) -> Iterator[tuple[str, float] | None]:
    for report in verdicts(documents, rules=rules):
        claim = None if report["headline"] is None else report["claims"][report["headline"]]
        yield None if claim is None else (claim["verdict"], claim["plausibility"])


def _published() -> Iterator[tuple[list[Unit], list[dict[str, Any]]]]:
    pks = list(Unit.objects.published().order_by("pk").values_list("pk", flat=True))
    for start in range(0, len(pks), SLICE):
        units = list(Unit.objects.filter(pk__in=pks[start:start + SLICE]).order_by("pk"))
        yield units, unit_documents(units)


def _gathered():
    """By uid: capability and conditions; why not; and by rule id and uid the size."""
    measured: dict[str, dict[str, float | None]] = {}
    excluded: dict[str, str] = {}
    sizes: dict[str, dict[str, float]] = {}
    for _, documents in _published():
        _gather(documents, measured, excluded, sizes)
    return measured, dict(sorted(excluded.items())), sizes


def _gather(documents, measured, excluded, sizes):
    tables = engine_tables(documents)
    claimed = largest_by_unit(tables.claims.row, tables.claims.claimed_power, len(documents))
    mains, output = np.full(len(documents), nan), np.full(len(documents), nan)
    for row, document in enumerate(documents):
        uid = document["unit"]["uid"]
        try:
            found = measured_capability(document, float(claimed[row]))
        except NotMeasured as reason:
            excluded[uid] = str(reason)
            continue
        mains[row], output[row] = found.mains_voltage, found.output_voltage
        measured[uid] = {"power": found.power, "mains_voltage": _number(found.mains_voltage)}
    by_rule = habit_sizes(rulebook.load(), tables.evidence, tables.claims, mains, output)
    for rule_id, column in by_rule.items():
        sizes.setdefault(rule_id, {}).update(
            (document["unit"]["uid"], float(size))
            for document, size in zip(documents, column, strict=True))


def _number(value):
    return None if np.isnan(value) else value


def _stored(habits, units, excluded) -> ReferenceSet:
    """The set with these habits and units: the stored one where there is one, else a new one."""
    text = json.dumps([habits, units], sort_keys=True, allow_nan=False)
    digest = sha256(text.encode()).hexdigest()
    if known := ReferenceSet.objects.filter(digest=digest).first():
        return known
    last = ReferenceSet.objects.aggregate(last=Max("number"))["last"] or 0
    return ReferenceSet(number=last + 1, digest=digest, rulebook=rulebook.load().version,
                        habits=habits, units=units, excluded=excluded)
