"""Work out what stands beside units and families: what sister boards showed together.

It is kept in rows of its own and changes no verdict, no list and no score. What it rests on is
named beforehand (want_sisters); where that moved while it was worked out, it is not kept.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from itertools import combinations
from typing import Any

from django.utils import timezone

from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.inherited import Sister, disagreements, inherit, pooled
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.exchange.sister_verdict import changes_beside, open_points, with_sisters
from teardowns.models import BoardFamily, FamilyPool, ProposalState, Publication, SisterReport

from .active_rulebook import active_rulebook
from .want_sisters import MOST, members_of, sisters_of

SLICE = 50               # units a run; the rest waits for the next
KEPT = 40                # disagreements of one family or unit that are kept and shown


def compare_sisters(most: int = SLICE) -> int:
    """How many reports and pools were worked out anew."""
    rules = active_rulebook()
    # Under another rulebook a version is assessed anew first, and its report then wanted otherwise.
    reports = SisterReport.objects.stale().filter(
        publication__standing__rulebook=rules.version).select_related("publication__standing")
    pools = FamilyPool.objects.stale().select_related("family")
    done = sum(_report(row, rules) for row in reports.order_by("pk")[:most])
    return done + sum(_pool(row) for row in pools.order_by("pk")[:most])


def _report(row: SisterReport, rules: Rulebook) -> bool:
    publication = row.publication
    own = publication.standing.payload
    mine = _sister(publication)
    lenders = _public(sisters_of([mine.unit])[mine.unit])
    sisters = {one.unit_id: _sister(one) for one in lenders}
    inheritance = inherit(mine, list(sisters.values()))
    moved = changes_beside(own, with_sisters(mine.document, inheritance.rows, rules))
    heard = [(sisters[one.unit_id], one.standing.payload) for one in lenders
             if one.unit_id not in inheritance.contradicting]
    return _keep(row, {
        "families": _slugs(mine.unit),
        "inherited": [asdict(one) for one in inheritance.rows],
        "set_aside": [asdict(one) for found in inheritance.set_aside.values()
                      for one in found][:KEPT],
        "between": [asdict(one) for one in inheritance.between[:KEPT]],
        "open_points": [asdict(one) for one in open_points(own, heard)],
        "claims": [[one.about, one.was, one.now] for one in moved.claims],
        "capability": [[one.about, one.was, one.now] for one in moved.capability]})


def _pool(row: FamilyPool) -> bool:
    sisters = [_sister(one) for one in _public(members_of([row.family_id])[row.family_id])]
    differ = [one for pair in combinations(sisters, 2) for one in disagreements(*pair)]
    return _keep(row, {"pooled": [asdict(one) for one in pooled(sisters)],
                       "disagreements": [asdict(one) for one in differ[:KEPT]]})


def _keep(row: Any, found: Mapping[str, Any]) -> bool:
    """Whether what it rests on is still what it was: only then it is kept."""
    return bool(type(row).objects.filter(pk=row.pk, wanted=row.wanted).update(
        digest=row.wanted, made_at=timezone.now(), **found))


def _public(units: list[int]) -> list[Publication]:
    """What stands of those that everybody sees, in the order in which they joined."""
    found = {one.unit_id: one for one in Publication.objects.current().filter(
        unit__in=units).select_related("standing").defer("frozen", "words")}
    return [found[unit] for unit in units if unit in found][:MOST]


def _sister(publication: Publication) -> Sister:
    return Sister(publication.unit_id, publication.number,
                  full(publication.document, unit_schema()))


def _slugs(unit):
    return list(BoardFamily.objects.filter(
        memberships__unit=unit, memberships__state=ProposalState.ACCEPTED,
    ).order_by("name").values_list("slug", flat=True).distinct())
