"""What assessing some units and their versions anew will come to, worked out while nobody waits.

Nothing is locked meanwhile and nothing is written. All that it rests on is kept in `seen`: whoever
writes it back looks once more, with the units locked, and where anything differs foresees anew.
"""
from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, NamedTuple

from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.digest import both_digests, digest
from teardowns.exchange.listing_facts import listing_facts
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.exchange.verdict import verdicts
from teardowns.exchange.verdict_changes import verdict_changes
from teardowns.models import Assessment, Publication, Unit

from .export_unit import Rows, fields_of, read_rows, unit_documents
from .list_units import Said

Report = dict[str, Any]
Key = tuple[int, str]                # a unit, and the digest of evidence of it


class Asked(NamedTuple):
    """One assessment, under the rules in force."""

    unit: int
    digest: str
    confirmed_only: bool

    @property
    def key(self) -> Key:
        return self.unit, self.digest


@dataclass(frozen=True, slots=True)
class Seen:
    """What a foresight rests on; two that are equal lead to the same."""

    rules: str
    units: list[tuple[int, dict[str, Any]]]
    rows: Rows
    versions: list[tuple[int, int, int, int]]      # version, unit, and what stands beside it


@dataclass(frozen=True, slots=True)
class Moves:
    """A version beside which another assessment will stand."""

    words: list[list[str]]           # of claims whose verdict moved: as printed, then, now
    levels: list[str]                # then, now; [] where it stays
    said: Said


@dataclass(frozen=True)
class Foresight:
    seen: Seen
    of_rows: list[Asked]                             # of each unit's rows as they are
    of_versions: dict[int, tuple[Asked, Asked]]      # confirmed evidence, and all
    stored: dict[Asked, int]                         # what was kept already
    reports: dict[Key, Report]                       # what is not, and of versions that move
    moves: dict[int, Moves]                          # by version

    @property
    def wanted(self) -> list[Asked]:
        """In the order in which they become current: that of the rows last."""
        versions = [asked for pair in self.of_versions.values() for asked in pair]
        return list(dict.fromkeys([*versions, *self.of_rows]))

    @cached_property
    def texts(self) -> dict[Key, str]:
        """As they are stored."""
        return {key: json.dumps(self.reports[key]) for key in
                {asked.key for asked in self.wanted if asked not in self.stored}}


def look_at(units: Sequence[Unit], versions: Iterable[Publication], rules: Rulebook,
            rows: bool = True) -> Seen:
    """rows : whether those of the units are to be assessed too"""
    return Seen(
        rules.version, [(unit.pk, fields_of(unit)) for unit in units] if rows else [],
        read_rows(units) if rows else {},
        [(one.pk, one.unit_id, one.standing_id, one.standing_all_id) for one in versions])


def foresee(seen: Seen, units: Sequence[Unit], rules: Rulebook,
            known: Mapping[Key, Report] | None = None) -> Foresight:
    """Only what is neither stored nor known is computed.

    units : those whose rows were seen
    """
    documents = _documents([pk for pk, *_ in seen.versions])
    of_versions, of_rows, sources = _asked(seen, units, documents)
    wanted = {*of_rows, *(asked for pair in of_versions.values() for asked in pair)}
    stored = stored_assessments(wanted, rules.version)
    moving = {pk: of_versions[pk] for pk, _, *stand in seen.versions
              if stand != [stored.get(asked) for asked in of_versions[pk]]}
    needed = {asked.key for asked in wanted if asked not in stored} | {
        confirmed.key for confirmed, _ in moving.values()}
    reports = _reports(needed, sources, stored, known or {}, rules)
    moves = _moves(moving, {pk: standing for pk, _, standing, _ in seen.versions}, documents,
                   reports)
    return Foresight(seen, of_rows, of_versions, stored, reports, moves)


def _asked(seen, units, documents):
    """What is wanted of each unit's rows and of each version; and by key, the document that tells
    it, and whether what is confirmed alone is to be read."""
    of_versions, of_rows, sources = {}, [], {}
    for pk, unit_pk, *_ in seen.versions:
        everything, confirmed = both_digests(documents[pk])
        of_versions[pk] = Asked(unit_pk, confirmed, True), Asked(unit_pk, everything, False)
        for asked in reversed(of_versions[pk]):
            sources[asked.key] = documents[pk], asked.confirmed_only
    for unit, document in zip(units, unit_documents(units, seen.rows) if units else [],
                              strict=True):
        of_rows.append(Asked(unit.pk, digest(document), False))
        sources.setdefault(of_rows[-1].key, (document, False))
    return of_versions, of_rows, sources


def stored_assessments(wanted: Iterable[Asked], version: str) -> dict[Asked, int]:
    """Those that are kept already, by their numbers."""
    wanted = set(wanted)
    found = Assessment.objects.filter(unit_id__in={asked.unit for asked in wanted},
                                      rulebook=version).order_by()
    rows = found.values_list("unit_id", "evidence_digest", "confirmed_only", "pk")
    return {asked: row[3] for row in rows if (asked := Asked(*row[:3])) in wanted}


def _documents(pks) -> dict[int, dict[str, Any]]:
    """Full by the form of today: what was added to the form since is at its default."""
    found = Publication.objects.filter(pk__in=pks).order_by().values_list("pk", "document")
    return {pk: full(document, unit_schema()) for pk, document in found}


def _reports(needed, sources, stored, known, rules) -> dict[Key, Report]:
    """Where all that counts is confirmed, what is confirmed is all that counts: the same evidence
    has the same report."""
    found = {key: known[key] for key in needed if key in known}
    kept = {asked.key: pk for asked, pk in stored.items() if asked.key in needed - found.keys()}
    payloads = _payloads(kept.values())
    found |= {key: payloads[pk] for key, pk in kept.items()}
    for confirmed_only in (True, False):
        keys = [key for key, (_, flag) in sources.items()
                if flag == confirmed_only and key in needed and key not in found]
        made = verdicts([sources[key][0] for key in keys], confirmed_only, rules,
                        [name for _, name in keys])
        found |= zip(keys, made, strict=True)
    return found


def _payloads(pks):
    return dict(Assessment.objects.filter(pk__in=set(pks)).order_by().values_list("pk", "payload"))


def _moves(moving, standing, versions, reports) -> dict[int, Moves]:
    before = _payloads(standing[pk] for pk in moving)
    moves = {}
    for pk, (confirmed, _) in moving.items():
        report = reports[confirmed.key]
        words, levels = moved_words(before[standing[pk]], report)
        moves[pk] = Moves(words, levels, Said(versions[pk], listing_facts(versions[pk], report)))
    return moves


def moved_words(was: Report, now: Report) -> tuple[list[list[str]], list[str]]:
    """Each claim whose verdict word moved, as printed, with both words; and both levels, if they
    differ. "" is what is not judged, or no level."""
    found = verdict_changes(was, now)
    words = [[_name(one.now or one.was), *(side["verdict"] if side else ""
                                           for side in (one.was, one.now))]
             for one in found.words]
    return words, [found.level.was or "", found.level.now or ""] if found.level else []


def _name(claim):
    return claim["printed"] or claim["text"]
