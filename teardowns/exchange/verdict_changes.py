"""What differs between two reports of the engine: words first, then the numbers behind them."""
from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from teardowns.exchange.changes import same

Report = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Moved:
    """One statement; None where it was, or is, not made."""

    about: str                   # "claim/out-20v", "low", "fire", "safety/creepage: board"
    was: Any
    now: Any


@dataclass(frozen=True, slots=True)
class VerdictChanges:
    rulebook: Moved | None
    claims: tuple[Moved, ...]            # by ref: verdict, plausibility, both ends, text, printed
    capability: tuple[Moved, ...]        # by mains end: median, low, high; W
    level: Moved | None                  # of the gravest finding, "" for none
    findings: tuple[Moved, ...]          # by scenario: title and level
    grades: tuple[Moved, ...]            # by rule and subject: title and grade
    checks: tuple[Moved, ...]            # by check, claim and port: title and outcome

    def __bool__(self) -> bool:
        return bool(self.claims or self.capability or self.level or self.findings or self.grades
                    or self.checks)

    @property
    def words(self) -> tuple[Moved, ...]:
        """Claims whose verdict word moved, or that came or went."""
        return tuple(one for one in self.claims if _word(one.was) != _word(one.now))


def verdict_changes(was: Report | None, now: Report | None) -> VerdictChanges:
    """What two reports on one unit say differently; None is a unit that was not assessed.

    Numbers within a relative 1e-9 are the same. A rulebook of another name alone is no change.
    """
    was, now = was or {}, now or {}
    return VerdictChanges(
        rulebook=_moved("rulebook", was.get("rulebook"), now.get("rulebook")),
        claims=_pairs(_claims, was, now), capability=_pairs(_capability, was, now),
        level=_moved("level", _level(was), _level(now)),
        findings=_pairs(_findings, was, now), grades=_pairs(_grades, was, now),
        checks=_pairs(_checks, was, now))


def headline_word(report: Report | None) -> str:
    """The verdict on the largest power claim; "" where none is judged."""
    if not report or report["headline"] is None:
        return ""
    return report["claims"][report["headline"]]["verdict"]


def level_of(report: Report | None) -> str:
    """The gravest level of risk, "" for none."""
    return report["safety"]["level"] if report and "safety" in report else ""


def _moved(about, was, now):
    return None if same(was, now) else Moved(about, was, now)


def _pairs(read: Callable[[Report], dict[str, Any]], was: Report, now: Report) -> tuple[Moved, ...]:
    """What moved, in the order of the later report; what is gone comes last."""
    before, after = read(was), read(now)
    moved = (_moved(about, before.get(about), after.get(about))
             for about in dict.fromkeys([*after, *before]))
    return tuple(one for one in moved if one)


def _claims(report):
    kept = ("verdict", "plausibility", "ends", "text", "printed")
    return {one["ref"]: {name: one.get(name) for name in kept} for one in report.get("claims", ())}


def _capability(report):
    found = report.get("capability", {})
    return {end: {name: one[name] for name in ("median", "low", "high")}
            for end, one in found.items() if one is not None}


def _level(report):
    return report["safety"]["level"] if "safety" in report else None


def _findings(report):
    return {one["scenario"]: {"title": one["title"], "level": one["level"]}
            for one in report.get("safety", {}).get("findings", ())}


def _grades(report):
    """A subject that a rule sees more than once is counted: "…, 2"."""
    return _numbered((f"{one['rule']}: {one['subject']}",
                      {"title": one["title"], "subject": one["subject"], "grade": one["grade"]})
                     for one in report.get("safety", {}).get("results", ()))


def _checks(report):
    return _numbered((f"{one['id']}: {one['claim'] or ''} {one['port'] or ''}".strip(),
                      {"title": one["title"], "port": one["port"], "outcome": one["outcome"]})
                     for one in report.get("checks", ()))


def _numbered(pairs):
    found: dict[str, Any] = {}
    times: Counter[str] = Counter()
    for about, said in pairs:
        times[about] += 1
        found[f"{about}, {times[about]}" if times[about] > 1 else about] = said
    return found


def _word(claim):
    return claim["verdict"] if claim else None
