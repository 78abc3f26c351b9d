"""From unit documents to verdicts: tables, engine, report. Needs no database."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from teardowns.engine import explain, pipeline, rulebook
from teardowns.engine.judging import ENDS
from teardowns.engine.report import report
from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.digest import digest
from teardowns.exchange.tables import Tables, engine_tables, refs_behind

Document = Mapping[str, Any]


def verdicts(
    documents: Sequence[Document], confirmed_only: bool = False, rules: Rulebook | None = None
) -> list[dict[str, Any]]:
    """The engine's report on each of many full documents, in their order.

    A report depends on its own document and on the rules alone: among others it comes out the
    same to the bit. Without `rules` the rulebook as it is, without a reference set.
    """
    if not documents:
        return []
    tables, assessment = _assessed(documents, confirmed_only, rules)
    return [
        _completed(report(assessment, row, tables.refs), document, confirmed_only,
                   assessment.rulebook)
        for row, document in enumerate(documents)
    ]


def assumptions(
    document: Document, confirmed_only: bool = False, rules: Rulebook | None = None
) -> list[dict[str, Any]]:
    """What the rulebook took for granted of a unit where nobody looked, each thing once.

    Keys: code, label, value and u (SI), unit, default_source, as the working shows them.
    """
    tables, assessment = _assessed([document], confirmed_only, rules)
    traces = (explain.explain(assessment, 0, rule.id, end, tables.refs)
              for rule in assessment.rulebook.lines for end in ENDS)
    inputs = (used for trace in traces if trace for used in trace["inputs"])
    return list({used["code"]: used for used in inputs if used["default_source"]}.values())


def _assessed(documents, confirmed_only, rules) -> tuple[Tables, pipeline.Assessment]:
    tables = engine_tables(documents, confirmed_only)
    return tables, pipeline.assess(tables.evidence, tables.claims, rules or rulebook.load(),
                                   tables.ports, tables.subjects)


def _completed(made, document, confirmed_only, rules):
    """The report with its digest and reference set, and each claim's words beside its figures."""
    printed = {f"claim/{row['key']}": row["text"] for row in document["claims"]}
    for claim in made["claims"]:
        claim["printed"] = printed[claim["ref"]]
    return each_ref_apart(made) | {
        "evidence_digest": digest(document, confirmed_only),
        "reference_set": rules.reference or None,
    }


def each_ref_apart(node: Any) -> Any:
    """A report or a trace, with an entry for each of the rows that one number rests on."""
    if isinstance(node, list):
        return [each_ref_apart(item) for item in node]
    if not isinstance(node, dict):
        return node
    return {key: [ref for joined in value for ref in refs_behind(joined)] if key == "evidence"
            else each_ref_apart(value) for key, value in node.items()}
