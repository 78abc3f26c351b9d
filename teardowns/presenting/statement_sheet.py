"""A statement of reasons as its addressee reads it, given or about to be."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from core.words.as_written import AsWritten

from .moderation_times import moment


@dataclass(frozen=True, slots=True)
class StatementSheet:
    decision: str
    about: str
    facts: str
    rule: str
    automated: str
    remedy: str
    by: str
    at: str
    uid: str            # "" before it is given


def subject_called(statement: Any) -> str:
    """What a statement is about that is about no record: an account by its public name."""
    of_account = statement.subject.startswith("user/") and statement.addressee
    return AsWritten(statement.addressee) if of_account else statement.subject


def statement_sheet(statement: Any) -> StatementSheet:
    unit = statement.unit
    return StatementSheet(
        decision=statement.get_decision_display(),
        about=f"{unit.title} (record {unit.pk})" if unit else subject_called(statement),
        facts=statement.facts, rule=statement.rule,
        automated="By a stated rule, without a person." if statement.automated
        else "By a person, not automated.",
        remedy=statement.remedy, by="" if statement.automated else "a moderator",
        at=moment(statement.at), uid=str(statement.uid) if statement.pk else "")
