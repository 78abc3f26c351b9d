"""What the engine makes of units, kept: one assessment for one rulebook and one set of evidence.

The current assessment of a unit is the first of `unit.assessments`: the one that was found to hold
most recently. When evidence goes back to what it was, its old assessment holds again and is dated
anew; nothing else of an assessment ever changes.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils import timezone

from teardowns.engine.risk import ORDER
from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.digest import digest
from teardowns.exchange.verdict import verdicts
from teardowns.models import Assessment, Unit

from .active_rulebook import active_rulebook
from .export_unit import unit_documents


@transaction.atomic
def assess_units(units: Iterable[Unit], confirmed_only: bool = False) -> list[Assessment]:
    """The current assessments of units, in their order; computes only those not known yet.

    The units stay locked meanwhile: whoever saves evidence at the same time is assessed after us,
    so that an older state never ends up as the current one. Pass a few hundred at a time.
    """
    locked = _locked([unit.pk for unit in units])
    current = _assessments_of(locked, unit_documents(locked), confirmed_only, active_rulebook())
    dated = become_newest({row.unit_id: row.pk for row in current}, confirmed_only)
    for row in current:
        row.created_at = dated.get(row.pk, row.created_at)
    return current


def _assessments_of(units: Sequence[Unit], documents: Sequence[Mapping[str, Any]],
                    confirmed_only: bool, rules: Rulebook) -> list[Assessment]:
    """What the rules make of a full document of each unit; computes only what is not known yet."""
    keys = [(unit.pk, digest(document, confirmed_only))
            for unit, document in zip(units, documents, strict=True)]
    stored = _stored(keys, confirmed_only, rules.version)
    new = [at for at, key in enumerate(keys) if key not in stored]
    reports = _reports(new, keys, documents, confirmed_only, rules)
    made = [_assessment(units[at], reports[at], confirmed_only) for at in new]
    stored |= zip([keys[at] for at in new], Assessment.objects.bulk_create(made), strict=True)
    return [stored[key] for key in keys]


def _reports(new, keys, documents, confirmed_only, rules) -> dict[int, dict[str, Any]]:
    """By place. Where all that counts is confirmed, what is confirmed is all that counts: the same
    evidence has the same report."""
    known = _stored([keys[at] for at in new], not confirmed_only, rules.version) if new else {}
    found = {at: known[keys[at]].payload for at in new if keys[at] in known}
    rest = [at for at in new if at not in found]
    made = verdicts([documents[at] for at in rest], confirmed_only, rules,
                    [keys[at][1] for at in rest])
    return found | dict(zip(rest, made, strict=True))


def _locked(pks):
    """The units as they stand now, each once; those that are gone are left out."""
    found = Unit.objects.select_for_update().order_by("pk").in_bulk(pks)
    return [found[pk] for pk in dict.fromkeys(pks) if pk in found]


def _stored(keys, confirmed_only, version):
    found = Assessment.objects.filter(
        unit_id__in=[pk for pk, _ in keys], evidence_digest__in=[text for _, text in keys],
        rulebook=version, confirmed_only=confirmed_only,
    )
    return {(row.unit_id, row.evidence_digest): row for row in found}


def _assessment(unit: Unit, report: dict[str, Any], confirmed_only: bool) -> Assessment:
    return Assessment(
        unit=unit, rulebook=report["rulebook"], evidence_digest=report["evidence_digest"],
        confirmed_only=confirmed_only, payload=report, **list_columns(report),
    )


def list_columns(report: dict[str, Any]) -> dict[str, Any]:
    """What lists print: the largest power claim, and the capability at the lower mains end."""
    columns: dict[str, Any] = {}
    if report["headline"] is not None:
        claim = report["claims"][report["headline"]]
        columns = {"verdict": claim["verdict"], "claimed_power": claim["power"],
                   "plausibility": claim["plausibility"]}
    if (capability := report["capability"]["low"]) is not None:
        columns |= {"capability": capability["median"], "capability_low": capability["low"],
                    "capability_high": capability["high"]}
    return columns | _risk_columns(report["safety"])


def _risk_columns(safety: dict[str, Any]) -> dict[str, Any]:
    """The gravest level as a number, how sure the surest finding of that level is, and how many
    points wait for a reviewer without a level."""
    gravest = [one for one in safety["findings"] if one["level"] == safety["level"]]
    sure = [one["certainty"] for one in gravest if one["certainty"] is not None]
    return {"risk": ORDER.index(safety["level"]), "risk_certainty": max(sure, default=None),
            "flags": len(safety["without_scenario"]) + len(safety["flags"])}


def newest_of(unit_pks: Iterable[int], confirmed_only: bool = False) -> dict[int, int]:
    """By unit, the assessment that became current last."""
    newest: dict[int, int] = {}
    known = Assessment.objects.filter(unit_id__in=list(unit_pks), confirmed_only=confirmed_only)
    for unit, pk in known.values_list("unit_id", "pk"):      # the newest come first
        newest.setdefault(unit, pk)
    return newest


def become_newest(current: Mapping[int, int], confirmed_only: bool) -> dict[int, datetime]:
    """Make each of these, by unit, the newest of its unit; those that were dated anew."""
    newest = newest_of(current, confirmed_only)
    passed = [pk for unit, pk in current.items() if newest[unit] != pk]
    now = timezone.now()
    Assessment.objects.filter(pk__in=passed).update(created_at=now)
    return dict.fromkeys(passed, now)
