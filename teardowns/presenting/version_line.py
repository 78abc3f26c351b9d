"""Which version a page shows, and what the evidence that nobody confirmed yet would change."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.urls import reverse

from .difference_sheet import summary
from .numbers import quoted


@dataclass(frozen=True, slots=True)
class VersionLine:
    text: str
    links: tuple[tuple[str, str], ...]       # address, words
    is_notice: bool                          # it is not what stands in public
    rest: tuple[str, ...]                    # a sentence each


def version_line(unit: Any, publication: Any, newest: Any, report: Mapping[str, Any] | None,
                 report_with_rest: Mapping[str, Any] | None) -> VersionLine:
    """publication : None for the working copy; newest : the version that stands, None where it is
    the one that is shown; reports : of confirmed evidence, and of all
    """
    standing = ((reverse("unit_detail", args=[unit.pk]), "The version that stands"),)
    if publication is None and not unit.publication_id:
        return VersionLine("", (), False, ())
    if publication is None:
        return VersionLine("This is the working copy of a correction. Nobody has published it, and "
                           "its numbers count evidence that nobody has confirmed yet.",
                           standing, True, ())
    links = ((reverse("unit_versions", args=[unit.pk]), "All versions"),)
    text = f"Version {publication.number}, published {publication.published_at:%Y-%m-%d}."
    rest = rest_would_change(report, report_with_rest)
    if newest is None:
        return VersionLine(text, links, False, rest)
    since = (reverse("unit_difference", args=[unit.pk, newest.number, publication.number]),
             "What changed since")
    return VersionLine(f"{text} Version {newest.number} stands now; this one is kept as it was, "
                       "with the numbers of its day. Since then: "
                       f"{summary(publication.document, newest.document)}",
                       (since, *standing, *links), True, rest)


def rest_would_change(report: Mapping[str, Any] | None,
                      with_rest: Mapping[str, Any] | None) -> tuple[str, ...]:
    """What the verdicts would be if the evidence that waits for a review were confirmed."""
    if report is None or with_rest is None:
        return ()
    if report["evidence_digest"] == with_rest["evidence_digest"]:
        return ()
    said = {claim["ref"]: claim["verdict"] for claim in report["claims"]}
    changed = [f"{quoted(claim)}: “{claim['verdict']}” instead of "
               f"“{said.get(claim['ref'], 'not judged')}”." for claim in with_rest["claims"]
               if said.get(claim["ref"]) != claim["verdict"]]
    levels = report["safety"]["level"], with_rest["safety"]["level"]
    if levels[0] != levels[1]:
        changed.append(f"Gravest risk level: {levels[1] or 'none'} instead of "
                       f"{levels[0] or 'none'}.")
    return tuple(dict.fromkeys(changed)) or ("No verdict and no risk level would change.",)
