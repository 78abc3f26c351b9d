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
NESTED = (dict, list)
SLICE = 256           # documents that are examined at once: some 20 MB of what is behind them


def verdicts(
    documents: Sequence[Document], confirmed_only: bool = False, rules: Rulebook | None = None,
    digests: Sequence[str] | None = None,
) -> list[dict[str, Any]]:
    """The engine's report on each of many full documents, in their order.

    A report depends on its own document and on the rules alone: among others it comes out the
    same to the bit. Without `rules` the rulebook as it is, without a reference set.

    digests : of the documents, where they are known already
    """
    if digests is None:
        digests = [digest(document, confirmed_only) for document in documents]
    return [report for start in range(0, len(documents), SLICE)
            for report in _of_slice(documents[start:start + SLICE], confirmed_only, rules,
                                    digests[start:start + SLICE])]


def _of_slice(documents, confirmed_only, rules, digests):
    tables, assessment = _assessed(documents, confirmed_only, rules)
    return [
        _worded(report(assessment, row, tables.refs), document)
        | {"evidence_digest": name, "reference_set": assessment.rulebook.reference or None}
        for row, (document, name) in enumerate(zip(documents, digests, strict=True))
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


def _worded(made, document):
    """The report with each claim's words beside its figures."""
    printed = {f"claim/{row['key']}": row["text"] for row in document["claims"]}
    for claim in made["claims"]:
        claim["printed"] = printed[claim["ref"]]
    return each_ref_apart(made)


def each_ref_apart(node: Any) -> Any:
    """A report or a trace, with an entry for each of the rows that one number rests on."""
    if isinstance(node, list):
        return [each_ref_apart(item) if isinstance(item, NESTED) else item for item in node]
    if not isinstance(node, dict):
        return node
    return {key: [ref for joined in value for ref in refs_behind(joined)] if key == "evidence"
            else each_ref_apart(value) if isinstance(value, NESTED) else value
            for key, value in node.items()}
