"""Let measured units teach the practice lines: a proposal first, in force only when activated."""
from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from hashlib import sha256
from math import nan

import numpy as np
from django.db import transaction
from django.db.models import Max

from core.accounts.models import User
from core.audit.record import record
from teardowns.engine import rulebook
from teardowns.engine.claims import largest_by_unit
from teardowns.engine.habits import fit
from teardowns.engine.reference_set import habit_sizes
from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.measured_capability import NotMeasured, measured_capability
from teardowns.exchange.tables import engine_tables
from teardowns.exchange.verdict import verdicts
from teardowns.models import Publication, ReferenceSet

from .active_rulebook import rulebook_with

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
    record(author, "reference_set_activated", version=stored.version)
    return True


def moved_by(proposal: Proposal) -> Iterator[Moved]:
    """The published units whose largest claim gets another word under the proposed set."""
    before, after = rulebook_with(proposal.active), rulebook_with(proposal.stored)
    for publications in _published():
        documents = [publication.document for publication in publications]
        found = zip(publications, _headlines(documents, before), _headlines(documents, after),
                    strict=True)
        for publication, old, new in found:
            if old and new and old[0] != new[0]:
                yield Moved(publication.unit_id, publication.title, old, new)


def _headlines(documents, rules: Rulebook) -> Iterator[tuple[str, float] | None]:
    for report in verdicts(documents, confirmed_only=True, rules=rules):
        claim = None if report["headline"] is None else report["claims"][report["headline"]]
        yield None if claim is None else (claim["verdict"], claim["plausibility"])


def _published() -> Iterator[list[Publication]]:
    """The versions that stand, a slice at a time: what is on no bench moves no habit."""
    pks = list(Publication.objects.current().order_by("unit_id").values_list("pk", flat=True))
    for start in range(0, len(pks), SLICE):
        yield list(Publication.objects.filter(
            pk__in=pks[start:start + SLICE]).order_by("unit_id"))


def _gathered():
    """By uid: capability and conditions; why not; and by rule id and uid the size."""
    measured: dict[str, dict[str, float | None]] = {}
    excluded: dict[str, str] = {}
    sizes: dict[str, dict[str, float]] = {}
    for publications in _published():
        _gather([one.document for one in publications], measured, excluded, sizes)
    return measured, dict(sorted(excluded.items())), sizes


def _gather(documents, measured, excluded, sizes):
    tables = engine_tables(documents, confirmed_only=True)
    claimed = largest_by_unit(tables.claims.row, tables.claims.claimed_power, len(documents))
    mains, output = np.full(len(documents), nan), np.full(len(documents), nan)
    for row, document in enumerate(documents):
        uid = document["unit"]["uid"]
        try:
            found = measured_capability(document, float(claimed[row]), confirmed_only=True)
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
