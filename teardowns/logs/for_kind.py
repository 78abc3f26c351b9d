"""What a file leaves open once it is known what was logged."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from teardowns.logs.detect import Proposal
from teardowns.logs.questions import Choice, Question
from teardowns.logs.roles import NOT_USED, ROLES

WAVEFORM = "waveform"
PLAIN_VOLTAGES = ("output_voltage", "input_voltage")
# What a scope is held to, the likeliest first.
NODES = ("switch_voltage", "winding_voltage", "ripple_voltage", "output_voltage", NOT_USED)


def fitted(proposal: Proposal, kind: str, answers: Mapping[str, str]) -> Proposal:
    """Of a scope capture no heading says where the probe was: it is asked for.

    answers : as for `detect_layout`; a column whose role was chosen is left as it is
    """
    if kind != WAVEFORM:
        return proposal
    open_columns = {column.index for column in proposal.layout.columns
                    if column.role in PLAIN_VOLTAGES and f"role:{column.index}" not in answers}
    fields = {f"role:{index}" for index in open_columns}
    columns = tuple(replace(column, role=NODES[0]) if column.index in open_columns else column
                    for column in proposal.layout.columns)
    asked = tuple(_question(column) for column in columns if column.index in open_columns)
    others = tuple(question for question in proposal.questions if question.field not in fields)
    return replace(proposal, layout=replace(proposal.layout, columns=columns),
                   questions=(*others, *asked))


def _question(column):
    name = f"“{column.label}”" if column.label else f"Column {column.index + 1}"
    return Question(f"role:{column.index}", f"{name}: where was the probe?",
                    tuple(Choice(code, ROLES[code].label) for code in NODES))
