"""The calculation sheet of one line of evidence or one check: the rulebook read backwards."""
from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.likelihoods import MISREAD
from teardowns.figures.budget import Part, budget_bars
from teardowns.figures.marks import check_mark, kind_mark
from teardowns.figures.markup import escape
from teardowns.reading.quantity import print_interval, print_quantity

from .evidence_names import Cited, quantity_in_words
from .formula import formula_lines
from .links import Links, links_of
from .mains import mains_ends, mains_text
from .numbers import THIN, number, quoted, with_unit

KINDS = {
    "limit": "limit: an upper wall; speaks mildly for what lies below it, strongly against what "
             "lies above",
    "practice": "practice: a habit of the trade; 24 : 1 at most",
    "passed": "test passed: the capability lies above, within the test’s own conditions",
    "failed": "test failed: the capability lies below, within the test’s own conditions",
    "switch": "switch: whether a mechanism for more than 5\u202fV exists at all",
}
COUNTED = frozenset(("failed_tests",))         # inputs that are a number of rows


@dataclass(frozen=True, slots=True)
class Input:
    symbol: SafeString      # MathML, or ""
    label: str
    value: str              # "15.2 ± 0.3 µF"
    how: str
    evidence: list[tuple[str, str]]     # address, name
    default_source: str


def working_sheet(
    unit, report: dict, trace: dict, end: str, claim: str, cited: dict[str, Cited]
) -> dict:
    """Context of the page from the engine's trace of one line at one mains end.

    `claim` is the ref of the claim as whose evidence the line was read, or "".
    """
    links = links_of(unit)
    return {
        **_head(unit, trace, links),
        # A line about voltage is asked at the highest rated mains voltage.
        "mains": mains_text(report, end if trace["id"].startswith("power/") else "high"),
        "claim": cited[claim].name if claim else "",
        "other_ends": _other_ends(report, trace, end, claim, links),
        "kind": mark_safe(kind_mark(trace["kind"], escape(KINDS[trace["kind"]]))),
        "formula": formula_lines(trace["formula"]),
        "result": result_text(trace["result"]),
        "interval": interval_text(trace["result"]),
        "inputs": [_input(entry, cited, links) for entry in trace["inputs"]],
        "budget": _budget(trace),
        "caveats": _caveats(trace),
    }


def _caveats(trace: dict) -> list[str]:
    """What the number alone does not say: what it shares, and how far it is trusted."""
    shared = [entry["label"].lower() for entry in trace["inputs"] if entry["shared"]]
    found = []
    if shared:
        found.append(f"Other lines read the {' and the '.join(shared)} too: what is uncertain "
                     "there moves all of them together.")
    if trace["kind"] == "limit":
        found.append(f"One reading in {1 / MISREAD:.0f} is taken to be a gross mistake: no further "
                     "than that does this line refute a claim by itself.")
    if doubt := trace["doubt"]:
        what = "limit" if trace["kind"] == "limit" else "power"
        does = "refute" if doubt["factor"] > 1 else "support"
        found.append(f"One such reading in {number(1 / doubt['share'], 2)} is taken to be "
                     f"mistaken, with a {what} {number(doubt['factor'], 2)} times as high: so far "
                     f"and no further does this line {does}.")
    return found


def check_sheet(unit, report: dict, rule) -> dict:
    """Context of the page for a check: its formula, and what it said of each claim."""
    links = links_of(unit)
    facts = {name: getattr(rule, name) for name in ("id", "title", "summary", "source", "validity")}
    texts = {claim["ref"]: quoted(claim) for claim in report["claims"]}
    return {
        **_head(unit, facts, links),
        "formula": formula_lines(rule.formula),
        "outcomes": [
            (mark_safe(check_mark(check["outcome"])), check["sentence"],
             texts.get(check["claim"]) or _subject(check),
             links.evidence(check["claim"]) if check["claim"] else links.unit)
            for check in report["checks"] if check["id"] == rule.id
        ],
    }


def _subject(check: dict) -> str:
    """What a check is about that concerns no single claim."""
    return f"port {check['port']}" if check.get("port") else "the unit"


def _head(unit, rule: dict, links: Links) -> dict:
    return {
        "unit": unit,
        "unit_address": links.unit,
        "rule": rule["id"],
        "title": rule["title"],
        "summary": rule["summary"],
        "source": rule["source"],
        "validity": rule["validity"],
    }


def result_text(result: dict) -> str:
    if result["u"] is None:
        return f"ratio {number(result['value'])}"
    return print_quantity(result["value"], result["unit"], uncertainty=result["u"])


def interval_text(result: dict) -> str:
    if result["u"] is None:
        return ""
    return f"90{THIN}%: {print_interval(result['low'], result['high'], result['unit'])}"


def _other_ends(report, trace, end, claim, links) -> list[tuple[str, str]]:
    """Address and mains of the other end; a line about voltage is the same at both.

    A line that speaks at one end of the range alone has no sheet at the other.
    """
    ends = next((line["ends"] for line in report["lines"] if line["id"] == trace["id"]), {})
    if trace["id"].startswith("voltage/"):
        return []
    return [(links.working(trace["id"], other, claim), mains_text(report, other))
            for other in mains_ends(report) if other != end
            and (ends.get(other) or not ends.get(end))]


def _input(entry: dict, cited: dict[str, Cited], links: Links) -> Input:
    rows = [(ref, cited[ref]) for ref in entry["evidence"]]
    hows = ["counted"] if entry["code"] in COUNTED else dict.fromkeys(row.how for _, row in rows)
    return Input(
        symbol=mark_safe(entry["symbol"]),
        label=entry["label"],
        value=quantity_in_words(entry),
        how=", ".join(hows) if entry["how"] == "evidence" else entry["how"],
        evidence=[(links.evidence(ref), row.name) for ref, row in rows],
        default_source=entry["default_source"],
    )


def _budget(trace: dict) -> SafeString | str:
    """Bars of all contributions, the largest first; "" where the result has no uncertainty."""
    result = trace["result"]
    if result["u"] is None:
        return ""
    unit = result["unit"]
    parts = [
        _part(entry["symbol"] + " " + escape(entry["label"]), entry, entry["contribution"],
              entry["share"], unit)
        for entry in trace["inputs"] if entry["share"] > 0
    ]
    parts.append(_part("The formula itself", None, trace["model_error"] * result["value"],
                       trace["model_share"], unit))
    if trace["scale_share"] > 0:
        size = trace["scale_share"] ** 0.5 * result["u"]
        parts.append(Part("The photo scale that several lengths share", "they err together", size,
                          with_unit(number(size, 2), unit), _share(trace["scale_share"])))
    parts.sort(key=lambda part: -part.size)
    total = Part("Combined", "root of the sum of squares", result["u"],
                 with_unit(number(result["u"], 2), unit), "")
    caption = (
        f"What each input adds to the standard uncertainty of the result, in {unit}, k = 1. "
        "Contributions add as squares."
    )
    return mark_safe(budget_bars(caption, unit, parts, total))


def _part(name: str, entry: dict | None, size: float, share: float, unit: str) -> Part:
    detail = (
        quantity_in_words(entry) if entry
        else "how far it may be off where all inputs are right"
    )
    return Part(name.strip(), detail, size, with_unit(number(size, 2), unit), _share(share))


def _share(share: float) -> str:
    percent = f"{share * 100:.0f}" if share >= 0.005 else f"<{THIN}1"
    return f"{with_unit(percent, '%')} of the variance"
