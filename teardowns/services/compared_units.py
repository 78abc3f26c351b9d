"""Public units for a comparison: as many queries for six as for two."""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import Q

from teardowns.models import (
    Assessment,
    HiddenKind,
    Part,
    PhotoDerivative,
    Publication,
    Recording,
    RecordingKind,
    ReviewDecision,
    Status,
    Unit,
)
from teardowns.models.evidence import Evidence
from teardowns.models.moderation import hidden_now
from teardowns.reviewing.progress import BELIEVED

from .confirmations import DECIDED, confirmed_refs, counted
from .thaw import model_rows

SHOWN = ("printedtext", "claim", "port", "component", "stacklayer", "insulationobservation",
         "measurement", "photo", "photoscale", "recording")
WITH_CURVES = (RecordingKind.LOAD_SWEEP, RecordingKind.ENDURANCE)


@dataclass(frozen=True)
class ComparedUnit:
    """A public version of a unit: what it says, and what the engine made of it."""

    unit: Unit                          # as it stands now
    publication: Publication
    version: str                        # number of an older version, "" for the one that stands
    report: Mapping[str, Any]
    rows: Mapping[str, list[Any]]       # by model name, as this version has them
    confirmed: Mapping[str, int]        # by scenario, independent reviewers who confirmed it
    pictures: Mapping[int, list[PhotoDerivative]]     # by photo, smallest first; in sight now
    logs: Sequence[Recording]           # whose channels can be read now, with their ports

    @property
    def title(self) -> str:
        return self.publication.title

    def counted(self, name: str) -> list[Any]:
        """The rows of a kind that count in public."""
        return [row for row in self.rows[name] if row.review_state in BELIEVED]


@dataclass(frozen=True)
class Found:
    keys: list[tuple[int, str]]         # those of the wanted that are there, in their order
    units: list[ComparedUnit]           # one for each
    withdrawn: list[int]                # a tombstone stands in their place
    missing: list[tuple[int, str]]      # not there, or nobody else's business; pk and version
    again: list[tuple[int, str]]        # another name of a version that is there already


def compared_units(wanted: Sequence[tuple[int, str]]) -> Found:
    """What everybody may see of the units asked for. wanted : pk, and version or "" """
    units = {unit.pk: unit for unit in Unit.objects.filter(
        pk__in={pk for pk, _ in wanted}, quarantined_at=None,
        status__in=(Status.PUBLISHED, Status.WITHDRAWN), publication__isnull=False)}
    public = {pk: unit for pk, unit in units.items() if unit.status == Status.PUBLISHED}
    versions = _versions([(pk, version) for pk, version in wanted if pk in public], public)
    withdrawn = [pk for pk, _ in wanted if pk in units and pk not in public]
    missing = [key for key in wanted if key[0] not in withdrawn and key not in versions]
    first: dict[int, tuple[int, str]] = {}
    for key in wanted:
        if key in versions:
            first.setdefault(versions[key].pk, key)
    kept = {key: versions[key] for key in first.values()}
    again = [key for key in wanted if key in versions and key not in kept]
    return Found(list(kept), _compared(kept, public) if kept else [],
                 list(dict.fromkeys(withdrawn)), missing, again)


def _versions(wanted, public) -> dict[tuple[int, str], Publication]:
    """The publications meant; an older version by its number, the newest by that or without."""
    asked = Q(pk__in=[public[pk].publication_id for pk, _ in wanted])
    for pk, version in wanted:
        if version:
            asked |= Q(unit=pk, number=int(version))
    found = Publication.objects.filter(asked).select_related("standing").defer(
        "words", "note") if wanted else ()
    by_number = {(one.unit_id, str(one.number)): one for one in found}
    standing = {one.unit_id: one for one in by_number.values() if _stands(one, public)}
    return {(pk, version): one for pk, version in wanted
            if (one := by_number.get((pk, version)) if version else standing.get(pk))}


def _stands(publication, public):
    return publication.pk == public[publication.unit_id].publication_id


def _compared(kept, public) -> list[ComparedUnit]:
    reports = _reports(kept.values(), public)
    rows = {key: {name: model_rows(one.frozen.get(name, ())) for name in SHOWN}
            for key, one in kept.items()}
    _join_parts([row for found in rows.values() for row in found["component"]])
    pictures = _pictures([scale.photo_id for found in rows.values()
                          for scale in found["photoscale"]])
    curves = _readable_logs([pk for pk, _ in kept], rows.values())
    confirmed = _confirmed(kept, reports, rows)
    return [ComparedUnit(
        unit=public[key[0]], publication=one,
        version="" if _stands(one, public) else str(one.number), report=reports[one.pk],
        rows=rows[key], confirmed=confirmed[key],
        pictures={photo.pk: pictures[photo.pk] for photo in rows[key]["photo"]
                  if photo.pk in pictures},
        logs=_logs(key[0], rows[key], curves),
    ) for key, one in kept.items()]


def _reports(publications, public):
    """By version: the newest under the rulebook in force, an older one as it was published."""
    older = [one for one in publications if not _stands(one, public)]
    then = Assessment.objects.in_bulk([one.assessment_id for one in older]) if older else {}
    return {one.pk: then[one.assessment_id].payload if one in older else one.standing.payload
            for one in publications}


def _join_parts(components):
    """Put the library's entry into each row that names one, so that no row asks for its own."""
    named = {row.part_id for row in components if row.part_id is not None}
    known = Part.objects.in_bulk(named) if named else {}
    for row in components:
        if row.part_id is not None:
            row.part = known.get(row.part_id)


def _pictures(photos):
    """By photo, the pictures of those that are public, not taken down, and not hidden for now."""
    found = defaultdict(list)
    if photos:
        in_sight = PhotoDerivative.objects.filter(
            photo__in=photos, photo__taken_down_at=None, photo__published_at__isnull=False,
        ).exclude(hidden_now(HiddenKind.PHOTO, "photo_id"))
        for each in in_sight.order_by("photo_id", "width"):
            found[each.photo_id].append(each)
    return found


def _readable_logs(units, rows) -> set[tuple[int, str]]:
    """Unit and key of each public log that may hold a load curve and whose channels are here."""
    if not any(found["recording"] for found in rows):
        return set()
    return set(Recording.objects.shown().filter(
        unit__in=units, kind__in=WITH_CURVES, published_at__isnull=False,
    ).values_list("unit", "key"))


def _logs(pk, rows, readable):
    """As the version has them; each with its port."""
    ports = {port.pk: port for port in rows["port"]}
    found = [log for log in rows["recording"]
             if log.kind in WITH_CURVES and (pk, log.key) in readable]
    for log in found:
        log.port = ports.get(log.port_id)
    return found


def _confirmed(kept, reports, rows):
    """By version: by scenario, how many independent reviewers confirmed all that it rests on."""
    findings = {key: reports[one.pk].get("safety", {}).get("findings", ())
                for key, one in kept.items()}
    decisions = defaultdict(list)
    if any(findings.values()):
        for unit, *said in ReviewDecision.objects.filter(
                review__unit__in={pk for pk, _ in kept}).order_by("pk").values_list(
                    "review__unit", *DECIDED):
            decisions[unit].append(said)
    return {key: counted(found, confirmed_refs(
        kept[key].frozen["unit"]["fields"]["contributor"], _by_ref(rows[key]),
        decisions[key[0]])) for key, found in findings.items()}


def _by_ref(rows):
    return {row.ref: row for found in rows.values() for row in found if isinstance(row, Evidence)}
