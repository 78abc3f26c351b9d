"""What a rule about safety was given at one subject, and what it asks for where it got nothing."""
from collections.abc import Sequence
from math import isnan

import numpy as np

from .explain import number, refs_of
from .grading import COVERAGE
from .pipeline import Assessment
from .quantities import QUANTITIES
from .rule import Rule
from .safety_words import HINT_ASSUMED, HINT_MISSING, HINT_READING
from .subjects import COLUMNS, TEXT

UNIT = COLUMNS["unit"]


def inputs_of(assessment: Assessment, row: int, rule: Rule, at: int,
              refs: Sequence[str] | None = None) -> list[dict]:
    """Each parameter of a rule at one subject; an expanded uncertainty stands with its value.

    at : place in the subject's table
    """
    return [
        _input(assessment, row, rule, name, at, refs) for name in rule.reads
        if not (name.endswith("_u") and name.removesuffix("_u") in rule.reads)]


def what_settles(assessment: Assessment, row: int, rule: Rule, at: int) -> list[str]:
    """What would decide a grade that cannot be told: the rule's questions about what nobody
    recorded, else a better reading, else the names of what is missing."""
    def unknown(names):
        return [name for name in names
                if not _is_known(value_at(assessment, row, rule, name, at))]

    graded = assessment.graded[rule.id]
    if asks := list(dict.fromkeys(filter(None, (rule.asks[name] for name in
                                                unknown(rule.asks))))):
        return asks
    if graded.why[at] == 0 and not isnan(graded.value[at]):
        return [HINT_READING if graded.low[at] == graded.high[at] else HINT_ASSUMED]
    # A text that is left empty, such as the shape of a path, is what most have to say of it.
    labels = [_meaning(rule, name).label for name in unknown(rule.required)
              if value_at(assessment, row, rule, name, at) != ""]
    return [HINT_MISSING.format(", ".join(labels))] if labels else []


def value_at(assessment: Assessment, row: int, rule: Rule, name: str, at: int):
    """One parameter at one subject: text, or a number that may be NaN."""
    own = assessment.subjects[rule.on].columns
    if name in own and at < len(own[name]):
        return own[name][at].item()
    if name in UNIT:
        units = assessment.subjects["unit"]
        place = np.flatnonzero(units.row == row)
        blank = "" if UNIT[name].kind == TEXT else float("nan")
        return units.columns[name][place[0]].item() if len(place) else blank
    if name.endswith("_u"):
        return COVERAGE * float(assessment.found[name.removesuffix("_u")].u[row])
    return float(assessment.found[name].value[row])


def _input(assessment, row, rule, name, at, refs):
    value = value_at(assessment, row, rule, name, at)
    doubt = f"{name}_u"
    u = value_at(assessment, row, rule, doubt, at) if doubt in rule.reads else float("nan")
    meaning = _meaning(rule, name)
    behind = assessment.evidence.behind(row, name) if name in QUANTITIES else []
    return {
        "name": name, "label": meaning.label, "unit": meaning.unit,
        "known": _is_known(value),
        "value": value if isinstance(value, str) else number(value), "u": number(u),
        "symbol": rule.symbols.get(name, ""), "evidence": refs_of(behind, refs),
    }


def _meaning(rule, name):
    """Label and unit of a parameter."""
    return (COLUMNS[rule.on].get(name) or UNIT.get(name)
            or QUANTITIES[name.removesuffix("_u") if name not in QUANTITIES else name])


def _is_known(value) -> bool:
    return value != "" if isinstance(value, str) else not isnan(value)
