"""What to measure next: the questions that the evidence leaves open."""
from __future__ import annotations

from dataclasses import dataclass

from .evidence_names import quantity_label


@dataclass(frozen=True, slots=True)
class Question:
    text: str
    settles: str            # "Sense resistor, peak current"
    missing: str            # labels of the quantities it asks for


def open_questions(report: dict) -> list[Question]:
    titles = {line["id"]: line["title"] for line in (*report["lines"], *report["unmeasured"])}
    titles |= {check["id"]: check["title"] for check in report["checks"]}
    return [
        Question(
            text=question["text"],
            settles=titles.get(question["rule"], ""),
            missing=", ".join(quantity_label(code) for code in question["reads"]),
        )
        for question in report["open_questions"]
    ]
