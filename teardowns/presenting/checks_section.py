"""What the plate says of itself: do its own numbers agree with each other?"""
from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.marks import check_mark

from .links import Links, claim_anchor
from .numbers import quoted

ORDER = ("inconsistent", "cannot tell", "consistent")      # what needs reading first


@dataclass(frozen=True, slots=True)
class CheckRow:
    title: str
    outcome: str
    mark: SafeString
    sentence: str
    claims: list[tuple[str, str]]       # addresses of verdicts on this page, and their claims
    working: str


def check_rows(report: dict, links: Links) -> list[CheckRow]:
    """One row for each outcome; claims of which a check says the same share it."""
    texts = {claim["ref"]: quoted(claim) for claim in report["claims"]}
    shared: dict[tuple[str, str, str], list[dict]] = {}
    for check in report["checks"]:
        key = (check["id"], check["outcome"], check["sentence"])
        shared.setdefault(key, []).append(check)
    rows = sorted(shared.values(), key=lambda alike: ORDER.index(alike[0]["outcome"]))
    return [_row(alike, texts, links) for alike in rows]


def remarks(rows: list[CheckRow]) -> dict[str, list[CheckRow]]:
    """What needs reading, and the checks that found nothing to remark."""
    return {"remarked": [row for row in rows if row.outcome != "consistent"],
            "consistent": [row for row in rows if row.outcome == "consistent"]}


def _row(alike: list[dict], texts: dict[str, str], links: Links) -> CheckRow:
    first = alike[0]
    return CheckRow(
        title=first["title"], outcome=first["outcome"],
        mark=mark_safe(check_mark(first["outcome"])),
        sentence=first["sentence"],
        claims=[(f"#{claim_anchor(check['claim'])}", texts[check["claim"]]) for check in alike
                if check["claim"] is not None],
        working=links.working(first["id"], "low"),
    )
