"""The power section: ladders at both mains ends, and what pushed for and against each claim."""
from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.capability import Capability
from teardowns.figures.ladder import Claimed, Rung, evidence_ladder, ladder_axis
from teardowns.figures.marks import kind_mark
from teardowns.figures.markup import element, escape
from teardowns.figures.scale_table import linked
from teardowns.figures.weights import Weight, weight_bars

from .evidence_names import quantity_label
from .links import Links
from .mains import mains_ends, mains_text
from .numbers import THIN, claim_in_words, claimed_watts, decibans, number, quoted, span, way

KINDS = (
    ("limit", "limit: physics, an upper wall"),
    ("practice", "practice: what makers usually do"),
    ("passed", "test passed: the capability lies above"),
    ("failed", "test failed: it lies below"),
)
TEST_WORDS = {"passed": "at least {}", "failed": "below {}"}
# Of several loads each mains end has its own: the value names it, the observations do not.
BY_END = frozenset(("power/sustained_power", "power/peak_power", "power/failed_power",
                    "power/overcurrent"))


@dataclass(frozen=True, slots=True)
class Gap:
    """A line without a value: nobody recorded its evidence, or it says nothing here."""

    title: str
    reason: str


@dataclass(frozen=True, slots=True)
class ClaimWeights:
    title: str              # "What pushed for and against “45W Max”"
    bars: SafeString


def ladders(report: dict, links: Links) -> list[SafeString]:
    """One ladder for each end of the rated mains range, the low end first, on one axis."""
    ends = mains_ends(report) if any(report["capability"].values()) else ("low",)
    rungs = {end: [_rung(line, end, links) for line in power_lines(report, end)] for end in ends}
    found = {end: capability(report, end) for end in ends}
    claim = _claimed(report)
    axis = ladder_axis(
        [rung for end in ends for rung in rungs[end]],
        [claim.power] if claim else [],
        [one for one in found.values() if one],
    )
    return [
        mark_safe(evidence_ladder(
            _caption(report, end), axis, rungs[end], claim, found[end],
            _foot_cells(report, end, links)))
        for end in ends
    ]


def power_lines(report: dict, end: str) -> list[dict]:
    """The lines about power that have a value at this mains end."""
    return [line for line in _about_power(report) if line["ends"][end] is not None]


def _about_power(report: dict) -> list[dict]:
    return [line for line in report["lines"] if line["target"] == "power"]


def capability(report: dict, end: str) -> Capability | None:
    found = report["capability"][end]
    if found is None:
        return None
    claim = _headline(report)
    ratio = f"×{THIN}{number(claim['power'] / found['median'], 2)}" if claim else ""
    return Capability(found["median"], found["low"], found["high"], found["density"], ratio)


def _headline(report: dict) -> dict | None:
    return None if report["headline"] is None else report["claims"][report["headline"]]


def _claimed(report: dict) -> Claimed | None:
    claim = _headline(report)
    return Claimed(claim["power"], f"claimed {claimed_watts(claim['power'])}") if claim else None


def _rung(line: dict, end: str, links: Links) -> Rung:
    at = line["ends"][end]
    return Rung(
        kind=line["kind"], title=line["title"],
        detail="" if line["id"] in BY_END else line["detail"],
        value=at["value"], low=at["low"], high=at["high"],
        value_text=TEST_WORDS.get(line["kind"], "{}").format(number(at["value"])),
        interval_text=span(at["low"], at["high"]),
        href=links.working(line["id"], end),
    )


def gaps(report: dict, states: dict[str, str]) -> list[Gap]:
    """Lines that say nothing at either end, and those that nobody recorded the evidence for."""
    silent = [Gap(line["title"], line["why_not"]) for line in _about_power(report)
              if not any(line["ends"].values())]
    return silent + [Gap(line["title"], missing_in_words(line["title"], line["reads"], states))
                     for line in report["unmeasured"] if line["id"].startswith("power/")]


def missing_in_words(title: str, codes: list[str], states: dict[str, str]) -> str:
    """What is missing, grouped by whether anybody looked: `not readable: Bulk capacitance`."""
    groups: dict[str, list[str]] = {}
    for code in codes:
        groups.setdefault(states.get(code, "not recorded"), []).append(quantity_label(code))
    return "; ".join(state if labels == [title] else f"{state}: {', '.join(labels)}"
                     for state, labels in groups.items())


def _caption(report: dict, end: str) -> str:
    which = {"low": "the lower", "high": "the upper"}[end]
    where = f", {which} end of the rated range" if len(mains_ends(report)) == 2 else ""
    return (
        f"Evidence ladder: continuous output power at {mains_text(report, end)}{where}. "
        f"Logarithmic axis in watts; each mark spans its 90{THIN}% interval."
    )


def _foot_cells(report: dict, end: str, links: Links) -> tuple[str, str]:
    name = "Capability" + element("small", "all lines pooled")
    found, claim = report["capability"][end], _headline(report)
    if found is None:
        return name, "cannot tell" + element("small", "no line of evidence")
    href = f"{links.claim(claim['ref'])}#capability" if claim else ""
    interval = element("small", escape(span(found["low"], found["high"])))
    return name, linked(number(found["median"]), href) + interval


def weights(report: dict, links: Links) -> list[ClaimWeights]:
    """Weight bars of every claim that has some, the headline claim first."""
    order = sorted(range(len(report["claims"])), key=lambda i: i != report["headline"])
    claims = (report["claims"][i] for i in order)
    return [_claim_weights(report, claim, links) for claim in claims if claim["weights"]]


def _claim_weights(report: dict, claim: dict, links: Links) -> ClaimWeights:
    title = f"What pushed for and against {quoted(claim)}"
    caption = (
        f"Weight of evidence about the claim of {claim_in_words(claim)}, in decibans: how far the "
        "odds move when this line is left out. Ten decibans are a factor of ten."
    )
    lines = {line["id"]: line for line in report["lines"]}
    bars = [_weight(weight, lines, claim["ref"], links) for weight in claim["weights"]]
    return ClaimWeights(title, mark_safe(weight_bars(caption, bars)))


def _weight(weight: dict, lines: dict[str, dict], claim: str, links: Links) -> Weight:
    return Weight(
        kind=weight["kind"], title=lines[weight["line"]]["title"], decibans=weight["decibans"],
        text=decibans(weight["decibans"]), way=way(weight["decibans"]),
        href=links.working(weight["line"], "low", claim),
    )


def kind_key() -> list[SafeString]:
    """What each drawing means."""
    return [mark_safe(kind_mark(kind, escape(words))) for kind, words in KINDS]
