"""Which units stand beside which boards now: call it in the transaction of whatever changes it.

It names what each page has to rest on; what was worked out from anything else is shown no more, and
a job works it out anew (compare_sisters).
"""
from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from functools import cache
from hashlib import sha256
from inspect import getsource
from typing import NamedTuple

from django.db import transaction
from django_q.tasks import async_task

from teardowns.exchange import inheritable, inherited, sister_verdict
from teardowns.models import (
    BoardFamilyMember,
    FamilyPool,
    ProposalState,
    Publication,
    SisterReport,
)

MOST = 60                    # sisters of one unit: the first that joined
READERS = (inheritable, inherited, sister_verdict)
JOB = "teardowns.jobs.compare_sisters"


class Standing(NamedTuple):
    """What is public of a unit."""

    publication: int
    assessment: int
    rulebook: str


def want_sisters(unit_pks: Collection[int]) -> None:
    """Name anew what the families of these units rest on."""
    joined = BoardFamilyMember.objects.filter(
        unit__in=unit_pks, state__in=(ProposalState.ACCEPTED, ProposalState.REMOVED))
    families = set(joined.values_list("family", flat=True))
    if not families:
        return
    members = members_of(families)
    units = {*unit_pks, *(unit for found in members.values() for unit in found)}
    sisters = sisters_of(units)
    public = _public(units.union(*sisters.values()))
    reports = {public[unit].publication: _digest(unit, sisters[unit], public) for unit in units
               if unit in public and any(each in public for each in sisters[unit])}
    pools = {family: _digest(0, members[family], public) for family in families
             if any(each in public for each in members[family])}
    changed = [_want(SisterReport, "publication", reports), _want(FamilyPool, "family", pools)]
    SisterReport.objects.filter(publication__unit__in=units).exclude(
        publication__in=reports).delete()
    FamilyPool.objects.filter(family__in=families).exclude(family__in=pools).delete()
    if any(changed):
        transaction.on_commit(lambda: async_task(JOB))


def members_of(families: Iterable[int]) -> Mapping[int, list[int]]:
    """By family, the units that belong to it, in the order in which they joined."""
    found: Mapping[int, list[int]] = defaultdict(list)
    rows = BoardFamilyMember.objects.current().filter(family__in=families)
    for family, unit in rows.order_by("decided_at", "pk").values_list("family", "unit"):
        found[family].append(unit)
    return found


def sisters_of(units: Iterable[int]) -> Mapping[int, list[int]]:
    """By unit, all others of its families, public or not, in the order in which they joined."""
    own = list(BoardFamilyMember.objects.current().filter(unit__in=units).values_list(
        "unit", "family"))
    members = members_of({family for _, family in own})
    found: Mapping[int, list[int]] = defaultdict(list)
    for unit, family in own:
        found[unit] += [each for each in members[family] if each != unit
                        and each not in found[unit]]
    return found


def _public(units) -> dict[int, Standing]:
    found = Publication.objects.current().filter(unit__in=units)
    return {unit: Standing(*rest) for unit, *rest in found.values_list(
        "unit", "pk", "standing", "standing__rulebook")}


def _digest(unit, sisters, public) -> str:
    rests_on = [public[each] for each in sisters if each in public][:MOST]
    text = json.dumps([_readers(), public.get(unit), rests_on])
    return sha256(text.encode()).hexdigest()


@cache
def _readers():
    """How rows are lent is part of what a result rests on."""
    sources = "".join(getsource(module) for module in READERS)
    return sha256(sources.encode()).hexdigest()


def _want(model, key, wanted: Mapping[int, str]) -> bool:
    """Whether any is to be worked out anew."""
    known = dict(model.objects.filter(**{f"{key}__in": wanted}).values_list(key, "wanted"))
    moved = {pk: digest for pk, digest in wanted.items() if known.get(pk) != digest}
    model.objects.bulk_create(
        [model(**{f"{key}_id": pk, "wanted": digest}) for pk, digest in sorted(moved.items())],
        update_conflicts=True, unique_fields=[key], update_fields=["wanted"])
    return bool(moved)
