"""The working of every number of a record, as its calculation sheets show it, for paper."""
from __future__ import annotations

from typing import Any

from teardowns.engine import pipeline
from teardowns.engine.explain import explain, explain_claim
from teardowns.engine.explain_safety import explain_safety
from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.tables import engine_tables, refs_behind
from teardowns.exchange.verdict import each_ref_apart, verdicts

from .claim_sheet import claim_sheet
from .evidence_names import cited_rows
from .mains import mains_text
from .safety_points import subject_keys
from .safety_sheet import safety_sheet
from .sheet_version import sheet_version
from .working_sheet import working_sheet


def workings(unit: Any, document: Any, stored: Any, rules: Rulebook) -> dict[str, Any]:
    """Sheets of the largest claim, of each line of evidence at the lower mains end, and of each
    result that falls short; the engine is run once for all.

    stored : the assessment whose numbers the record shows
    """
    report, = verdicts([document], True, rules)
    tables = engine_tables([document], True)
    assessed = pipeline.assess(tables.evidence, tables.claims, rules, tables.ports,
                               tables.subjects)
    cited = cited_rows(document)
    return {
        "at": mains_text(report, "low"),
        "claim": _claim(unit, report, tables, assessed),
        "lines": _lines(unit, report, tables, assessed, cited),
        "grades": _grades(unit, report, tables, assessed, cited),
        **sheet_version(stored, report),
    }


def _claim(unit, report, tables, assessed):
    if report["headline"] is None:
        return None
    ref = report["claims"][report["headline"]]["ref"]
    judged = [refs_behind(tables.refs[claim])[0] for claim in tables.claims.claim_id]
    trace = each_ref_apart(explain_claim(assessed, judged.index(ref), tables.refs))
    return claim_sheet(unit, report, trace)


def _lines(unit, report, tables, assessed, cited):
    found = []
    for line in report["lines"]:
        end = "low" if line["ends"]["low"] else "high"
        trace = explain(assessed, 0, line["id"], end, tables.refs) if line["ends"][end] else None
        if trace:
            found.append(working_sheet(unit, report, each_ref_apart(trace), end, "", cited))
    return found


def _grades(unit, report, tables, assessed, cited):
    results = report["safety"]["results"]
    short = [(one["rule"], key) for one, key in
             zip(results, subject_keys(results), strict=True) if one["grade"] == "falls short"]
    traces = {rule: each_ref_apart(explain_safety(assessed, 0, rule, tables.refs))
              for rule in dict.fromkeys(rule for rule, _ in short)}
    sheets = (safety_sheet(unit, traces[rule], key, cited) for rule, key in short)
    return [sheet for sheet in sheets if sheet]
