"""The calculation sheet of one rule about safety: what it says of one subject, and from what."""
from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.mathml import inline
from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.rule import HAZARDS
from teardowns.engine.safety_words import CONFIDENCE_WORDS, amount, reading
from teardowns.figures.marks import grade_mark

from .evidence_names import Cited
from .formula import formula_lines
from .links import Links, links_of
from .safety_codes import in_words
from .safety_numbers import number_in_words, number_label, stem_and_end
from .safety_points import chance, share, subject_keys, subject_words

YES_OR_NO = frozenset((
    "coated", "contaminated", "documented", "sleeved", "photographed", "in_series", "cited",
    "claims_limited_source", "claims_60950", "claims_61558", "traced", "edges_photographed",
    "condition_noted", "distance_assumed"))                        # columns that are 1 or 0
OF_ONE_ROW = ("path", "part", "dimension")     # subjects that are a row of evidence


@dataclass(frozen=True, slots=True)
class Input:
    symbol: SafeString      # MathML, or ""
    label: str
    value: str              # "3.4 ± 0.1 mm", "board"
    evidence: list[tuple[str, str]]     # address, name


@dataclass(frozen=True, slots=True)
class Other:
    href: str
    name: str
    mark: SafeString


def safety_sheet(unit, trace: dict, asked: str, cited: dict[str, Cited]) -> dict | None:
    """Context of the page from the engine's trace of one rule; None where the rule says nothing
    of the subject that is asked for."""
    links = links_of(unit)
    keyed = list(zip(subject_keys(trace["subjects"]), trace["subjects"], strict=True))
    found = [pair for pair in keyed if pair[0] == asked] or ([] if asked else keyed[:1])
    if not found:
        return None
    key, one = found[0]
    return {
        "unit": unit, "unit_address": links.unit, "rule": trace["id"], "title": trace["title"],
        "subject": subject_words(one), "summary": trace["summary"],
        "formula": formula_lines(trace["formula"]),
        "source": trace["source"], "validity": trace["validity"],
        "hazard": HAZARDS[trace["hazard"]],
        "mark": mark_safe(grade_mark(one["grade"])), "sentence": one["sentence"],
        "flagged": one["flagged"], "asks": one["asks"],
        "compared": _compared(trace, one), "numbers": _numbers(one),
        "inputs": [_input(entry, one, cited, links) for entry in one["inputs"] if entry["known"]],
        "unknown": [entry["label"].lower() for entry in one["inputs"] if not entry["known"]],
        "assumptions": one["assumptions"],
        "confidence": f"{one['confidence']}: {CONFIDENCE_WORDS[one['confidence']]}",
        "others": [_other(trace["id"], other, result, links) for other, result in keyed
                   if other != key],
    }


def _compared(trace: dict, one: dict) -> list[tuple[str, str]]:
    """The reading beside the requirement at both ends, and what follows."""
    unit = one["unit"]
    rows = []
    if one["value"] is not None:
        rows.append(("Compared", reading(one["value"], one["u"] or 0.0, unit)))
    names = (("low", "Highest allowed, strictest reading of it" if trace["largest"]
              else "Required, under the most lenient assumptions"),
             ("high", "Highest allowed, most permissive reading of it" if trace["largest"]
              else "Required, under the most demanding assumptions"))
    rows += [(name, amount(one[end], unit)) for end, name in names if one[end] is not None]
    rows += [("Ratio", share(one)), ("How sure", chance(one))]
    return [(name, text) for name, text in rows if text]


def _numbers(one: dict) -> list[tuple[str, str, str]]:
    """What the requirement was made from: name, and the value at the lenient and demanding end;
    both are the same where nothing was assumed."""
    pairs: dict[str, dict[str, str]] = {}
    for name, value in one["numbers"].items():
        if value is None:
            continue
        stem, end = stem_and_end(name)
        pairs.setdefault(stem, {})[end] = number_in_words(stem, value)
    return [(number_label(stem), ends.get("low", ends.get("both", "")),
             ends.get("high", ends.get("both", ""))) for stem, ends in pairs.items()]


def _input(entry: dict, one: dict, cited: dict[str, Cited], links: Links) -> Input:
    refs = list(entry["evidence"])
    if not refs and one["on"] in OF_ONE_ROW and not _of_unit(entry):
        refs = one["evidence"][:1]
    return Input(
        symbol=mark_safe(inline(entry["symbol"])) if entry["symbol"] else "",
        label=entry["label"], value=_value(entry),
        evidence=[(links.evidence(ref), cited[ref].name) for ref in refs if ref in cited],
    )


def _of_unit(entry):
    return entry["name"] in QUANTITIES or entry["name"] in ("plug", "kind", "marks")


def _value(entry: dict) -> str:
    if isinstance(entry["value"], str):
        return in_words(entry["name"], entry["value"])
    quantity = QUANTITIES.get(entry["name"])
    if quantity is not None and quantity.is_flag:
        return "found" if entry["value"] > 0.5 else "looked for and not found"
    if entry["name"] in YES_OR_NO:
        return "yes" if entry["value"] > 0.5 else "no"
    if entry["name"].startswith("found_"):
        return "found" if entry["value"] > 0.5 else "looked for and not found"
    return reading(entry["value"], entry["u"] or 0.0, entry["unit"])


def _other(rule: str, key: str, one: dict, links: Links) -> Other:
    return Other(links.safety(rule, key), subject_words(one) or one["title"],
                 mark_safe(grade_mark(one["grade"])))
