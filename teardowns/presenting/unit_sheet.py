"""Everything the unit page places, prepared."""
from __future__ import annotations

from . import claims_section, power_section
from .bench_card import bench_card
from .checks_section import check_rows, remarks
from .evidence_tables import evidence_tables
from .findings_section import findings_section
from .insulation_section import insulation_section
from .links import Links, anchor, links_of
from .looked_states import looked_states
from .mains import mains_ends, mains_short
from .next_steps import steps_figure, without_steps
from .open_questions import open_questions
from .printed_text import printed_texts
from .record_foot import record_foot, record_line
from .unit_facts import facts
from .voltage_section import voltage_table
from .winding_section import winding_section_of
from .wording import power_sentence, voltage_sentence

NOT_ASSESSED = "The evidence of this unit has not been assessed yet."


def unit_sheet(unit, assessment, rows: dict[str, list], confirmed: dict[str, int],
               talk=None) -> dict:
    """Context of the page from the unit, its newest assessment (or None) and its evidence.

    confirmed : by scenario, how many independent reviewers confirmed all that it rests on
    talk : of `evidence_tables`
    """
    links = links_of(unit)
    report = assessment.payload if assessment else None
    hazard = insulation_section(report, rows, links)
    findings = findings_section(report if hazard.points else None, unit, links, confirmed)
    return {
        "unit": unit,
        "record": record_line(unit),
        "hazard": hazard,
        "findings": findings,
        "winding": winding_section_of(report, rows, links),
        "card": bench_card((report or {}).get("safety", {}).get("bench_card")),
        "facts": facts(report, rows, links, hazard, findings),
        "printed_texts": printed_texts(rows["printedtext"], rows["claim"]),
        "tables": evidence_tables(rows, talk),
        "foot": record_foot(unit, assessment),
        "document": links.document,
        **(_judged(report, rows, links) if report else {"sentences": [NOT_ASSESSED]}),
    }


def _judged(report: dict, rows: dict[str, list], links: Links) -> dict:
    states = looked_states(rows["measurement"], rows["component"])
    return {
        "report": True,
        "sentences": list(filter(None, (power_sentence(report), voltage_sentence(report)))),
        "claims": claims_section.claim_rows(
            report, links, {row.ref: row.port for row in rows["claim"]}),
        "mains": [mains_short(report, end) for end in mains_ends(report)],
        "unjudged": unjudged_claims(report, rows["claim"]),
        "ladders": power_section.ladders(report, links),
        "gaps": power_section.gaps(report, states),
        "kinds": power_section.kind_key(),
        "weights": power_section.weights(report, links),
        "voltages": voltage_table(report, links, states),
        "checks": remarks(check_rows(report, links)),
        "steps": steps_figure(report, states),
        "without_steps": without_steps(report),
        "questions": open_questions(report),
    }


def unjudged_claims(report: dict, claims: list) -> list[tuple[str, str, str]]:
    """Address, text and kind of each recorded statement that has no verdict."""
    judged = {claim["ref"] for claim in report["claims"]}
    return [
        (f"#{anchor(row.ref)}", row.text or row.mark, _unjudged_kind(row))
        for row in claims if row.ref not in judged and row.state == "recorded"
    ]


def _unjudged_kind(row) -> str:
    disputed = ", disputed and left out" if row.review_state == "disputed" else ""
    return f"{row.get_kind_display()}{disputed}"
