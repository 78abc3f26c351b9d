"""The safety chapter of the method page: every rule, every assumption, every table of figures."""
from __future__ import annotations

import pkgutil
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module

from django.utils.safestring import SafeString, mark_safe

from teardowns.engine import requirements
from teardowns.engine.assumptions import ASSUMPTIONS
from teardowns.engine.mathml import inline
from teardowns.engine.requirements.table import Table
from teardowns.engine.rule import HAZARDS, Rule
from teardowns.engine.rulebook import Rulebook
from teardowns.engine.safety_words import CONFIDENCE_WORDS

from .evidence_names import quantity_label
from .formula import formula_lines
from .method_sheet import name_and_meaning, rule_anchor

ASKED_OF = {
    "path": "every recorded path across a barrier",
    "adjacency": "each place where windings of both sides, or one and the core, are neighbours",
    "layer": "every layer of the transformer", "part": "every recorded part", "unit": "the unit",
    "dimension": "every size of the plug that was measured",
}


@dataclass(frozen=True, slots=True)
class SafetyInput:
    symbol: SafeString      # MathML, or ""
    name: str
    meaning: str
    optional: bool


@dataclass(frozen=True, slots=True)
class SafetyRule:
    id: str
    anchor: str
    title: str
    asked_of: str
    hazard: str
    summary: tuple[str, ...]            # paragraphs
    formula: list[SafeString]
    inputs: tuple[SafetyInput, ...]
    direction: str                      # "the observation must reach it", or "…must not exceed it"
    confidence: str
    source: str
    validity: str
    sentences: tuple[str, ...]          # that stand in place of the general comparison
    asks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RequirementTable:
    anchor: str
    title: str
    heads: tuple[str, ...]
    rows: list[tuple[str, list[str]]]   # name of the row, and its cells
    source: str
    confidence: str


def safety_chapter(rulebook: Rulebook) -> dict:
    return {
        "safety_rules": [_rule(rule) for rule in rulebook.safety],
        "assumptions": list(ASSUMPTIONS.values()),
        "confidences": list(CONFIDENCE_WORDS.items()),
        "requirements": [_table(*named) for named in requirement_tables()],
    }


def _rule(rule: Rule) -> SafetyRule:
    return SafetyRule(
        id=rule.id, anchor=rule_anchor(rule.id), title=rule.title,
        asked_of=ASKED_OF[rule.on], hazard=HAZARDS[rule.hazard],
        summary=tuple(rule.summary.split("\n\n")), formula=formula_lines(rule.formula),
        inputs=tuple(_input(rule, code) for code in rule.reads), direction=_direction(rule),
        confidence=f"{rule.confidence}: {CONFIDENCE_WORDS[rule.confidence]}",
        source=rule.source, validity=rule.validity,
        sentences=tuple(filter(None, rule.reasons)),
        asks=tuple(dict.fromkeys(filter(None, rule.asks.values()))),
    )


def _direction(rule: Rule) -> str:
    if not rule.measure:
        return "What was seen is graded; there is no number to compare."
    return ("The observation must not exceed the figure." if rule.largest
            else "The observation must reach the figure.")


def _input(rule: Rule, code: str) -> SafetyInput:
    symbol = rule.symbols.get(code, "")
    name, meaning = name_and_meaning(code, rule.on)
    return SafetyInput(mark_safe(inline(symbol)) if symbol else "", name, meaning,
                       code in rule.optional)


def requirement_tables() -> Iterator[tuple[str, Table]]:
    """Every table of engine.requirements, with its address there, in the order of the files."""
    for module in sorted(pkgutil.iter_modules(requirements.__path__), key=lambda one: one.name):
        held = vars(import_module(f"{requirements.__name__}.{module.name}"))
        for name, item in held.items():
            # A table stands under the module that made it; others only use it.
            if isinstance(item, Table) and not _is_borrowed(item, module.name):
                yield f"{module.name}-{name.lower()}", item


def _is_borrowed(table: Table, module: str) -> bool:
    return any(
        table is item
        for other in pkgutil.iter_modules(requirements.__path__) if other.name < module
        for item in vars(import_module(f"{requirements.__name__}.{other.name}")).values())


def _table(anchor: str, table: Table) -> RequirementTable:
    rows = [[_cell(value) for value in row] for row in table.rows]
    return RequirementTable(
        f"table-{anchor}", table.title, table.heads, [(row[0], row[1:]) for row in rows],
        table.source, f"{table.confidence}: {CONFIDENCE_WORDS[table.confidence]}")


def _cell(value: str | float | None) -> str:
    """A number as printed in the standard; the code of a quantity by its name."""
    if value is None:
        return "–"
    if isinstance(value, str):
        return quantity_label(value)
    return f"{value:g}"
