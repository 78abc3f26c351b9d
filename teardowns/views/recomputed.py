"""The engine run once more over a unit's document, so that its working can be shown."""
from teardowns.engine import pipeline
from teardowns.engine.explain import explain, explain_claim
from teardowns.engine.explain_safety import explain_safety
from teardowns.exchange.tables import engine_tables, refs_behind
from teardowns.exchange.verdict import each_ref_apart


def line_working(document, rules, line_id, end, claim="", confirmed_only=False):
    """How a line of evidence came to its value at one mains end, read for the claim of that ref.

    None where the unit has no such line, or no such claim.
    """
    tables, assessment = _assessed(document, rules, confirmed_only)
    judged = _judged(tables)
    if claim and claim not in judged:
        return None
    index = judged.index(claim) if claim else None
    return each_ref_apart(explain(assessment, 0, line_id, end, tables.refs, index))


def claim_working(document, rules, ref, confirmed_only=False):
    """How a claim came to its plausibility; None where it is not judged."""
    tables, assessment = _assessed(document, rules, confirmed_only)
    judged = _judged(tables)
    if ref not in judged:
        return None
    return each_ref_apart(explain_claim(assessment, judged.index(ref), tables.refs))


def safety_working(document, rules, rule_id, confirmed_only=False):
    """What one rule about safety says of each of its subjects, with all that went into it."""
    tables, assessment = _assessed(document, rules, confirmed_only)
    return each_ref_apart(explain_safety(assessment, 0, rule_id, tables.refs))


def _assessed(document, rules, confirmed_only):
    tables = engine_tables([document], confirmed_only)
    return tables, pipeline.assess(tables.evidence, tables.claims, rules, tables.ports,
                                   tables.subjects)


def _judged(tables):
    return [refs_behind(tables.refs[claim])[0] for claim in tables.claims.claim_id]
