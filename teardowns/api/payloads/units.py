"""Units as JSON, from what is public: listing rows, versions, assessments."""
from collections.abc import Iterable, Mapping
from typing import Any

from django.urls import reverse

from teardowns import licence
from teardowns.models import Assessment, ListedUnit, Publication
from teardowns.presenting.tombstone_sheet import document_digest

LISTED = ("title", "maker", "model", "kind", "channel", "verdict", "claimed_power", "plausibility",
          "capability", "capability_low", "capability_high", "measured_power", "load_held",
          "load_lost", "load_mains", "gap", "risk", "flags", "hazards", "year", "reach",
          "completeness", "topology", "controller", "connectors", "mass", "volume",
          "bulk_capacitance", "insulation_margin", "families")
FINDING = ("scenario", "title", "hazard", "level", "severity", "certainty", "confidence",
           "sentence", "evidence")
CLAIM = ("printed", "text", "voltage", "current", "power", "verdict", "plausibility")
LINE = ("id", "kind", "title", "unit", "used", "why_not", "evidence")
PARTS = ("document", "versions", "assessments", "photos", "recordings", "replies", "comments")


def unit_row(row: ListedUnit) -> dict[str, Any]:
    return {"unit": row.unit_id, "href": reverse("api_unit", args=[row.unit_id]),
            "page": reverse("unit_detail", args=[row.unit_id]),
            "published_at": row.published_at.isoformat(),
            **{name: getattr(row, name) for name in LISTED}}


def unit_record(row: ListedUnit, publication: Publication, replies: list[dict[str, Any]]
                ) -> dict[str, Any]:
    """publication : that stands, with its standing assessment and its unit's contributor"""
    pk, report = row.unit_id, publication.standing.payload
    return unit_row(row) | {
        "version": publication.number, "rulebook": publication.standing.rulebook,
        "digests": {"evidence": publication.standing.evidence_digest,
                    "document": document_digest(publication)},
        "licence": {"measurements": licence.MEASUREMENTS, "works": licence.WORKS,
                    "attribution": publication.unit.contributor.get_username()},
        "claims": [_claim(pk, claim) for claim in report["claims"]],
        "capability_ends": {end: _interval(report["capability"].get(end))
                            for end in ("low", "high")},
        "lines": [_line(pk, line) for line in report["lines"]],
        "findings": findings(report, replies),
        "replies": [reply for reply in replies if reply["about"] not in _scenarios(report)],
        "open_questions": [{"text": each["text"], "reads": each["reads"]}
                           for each in report["open_questions"]],
        "links": {name: reverse(f"api_unit_{name}", args=[pk]) for name in PARTS},
    }


def findings(report: Mapping[str, Any], replies: Iterable[Mapping[str, Any]]
             ) -> list[dict[str, Any]]:
    """Each with what was replied to it beside it."""
    return [{name: found[name] for name in FINDING} | {
        "p": found["p_value"],
        "replies": [reply for reply in replies if reply["about"] == found["scenario"]]}
        for found in report["safety"]["findings"]]


def _scenarios(report):
    return {found["scenario"] for found in report["safety"]["findings"]}


def _claim(pk, claim):
    key = claim["ref"].partition("/")[2]
    return {"claim": claim["ref"], **{name: claim.get(name) for name in CLAIM},
            "printed": claim.get("printed", ""), "decibans": claim["total_decibans"],
            "working": reverse("api_unit_claim_working", args=[pk, key])}


def _interval(end):
    return {name: end[name] for name in ("median", "low", "high")} if end else None


def _line(pk, line):
    ends = {end: {name: values.get(name) for name in ("value", "low", "high")}
            for end, values in line["ends"].items() if values}
    where = next(iter(ends), "low")
    return {name: line[name] for name in LINE} | {
        "ends": ends,
        "working": reverse("api_unit_working", args=[pk, *line["id"].split("/"), where])}


def version_row(publication: Publication) -> dict[str, Any]:
    """publication : with its assessment and the author of its correction"""
    correction = publication.correction
    return {
        "number": publication.number, "note": publication.note,
        "href": reverse("api_unit_version", args=[publication.unit_id, publication.number]),
        "published_at": publication.published_at.isoformat(),
        "reason": correction.reason if correction else "",
        "author": correction.author.get_username() if correction else "",
        "rulebook": publication.assessment.rulebook, "verdict": publication.assessment.verdict,
        "evidence_digest": publication.assessment.evidence_digest}


def assessment_row(found: Assessment, publication: Publication, as_of: str) -> dict[str, Any]:
    return {
        "id": found.pk, "version": publication.number, "as_of": as_of,
        "href": reverse("api_unit_assessment", args=[publication.unit_id, found.pk]),
        "rulebook": found.rulebook, "evidence_digest": found.evidence_digest,
        "confirmed_only": found.confirmed_only, "verdict": found.verdict,
        "plausibility": found.plausibility, "capability": found.capability, "risk": found.risk,
        "made_at": found.created_at.isoformat()}


def whole_assessment(found: Assessment, publication: Publication, as_of: str) -> dict[str, Any]:
    return assessment_row(found, publication, as_of) | {"report": found.payload}
