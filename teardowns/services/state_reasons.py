"""The statement of reasons for a decision: drafted for a preview, then given once and for good.

That each restriction has a statement of facts, rule, automation and redress follows Regulation
(EU) 2022/2065, Articles 17 and 20 (from memory); appeals are open for six months as there.
"""
from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.urls import reverse

from core.accounts.models import User
from teardowns.models import Decision, NoticeKind, Report, Statement, Unit
from teardowns.reasons import BY_CODE

from .notify import notify

APPEAL_OPEN = timedelta(days=183)
APPEAL = ("If you think this is wrong, open this statement and appeal within six months. Somebody "
          "who did not take the decision looks at it again within 14 days.")
FINAL = "This is the end of the way within this site; the courts stay open to you."
RESTRICTS = frozenset({
    Decision.SEND_BACK, Decision.DECLINE, Decision.WITHDRAW, Decision.QUARANTINE,
    Decision.HIDE, Decision.KEEP_HIDDEN, Decision.REPORT_DISMISSED, Decision.SUSPEND,
    Decision.ROLE, Decision.MERGE, Decision.COMMENT_REMOVED, Decision.REPLY_DECLINED,
})
# How each decision is undone, or what comes next.
UNDONE: dict[str, str] = {
    Decision.SEND_BACK: "Nothing is lost: change what the remarks name, then submit again.",
    Decision.DECLINE: "What stood before stays public, and the proposal stays readable to you.",
    Decision.WITHDRAW: "Every version is kept. A moderator can make the record public again.",
    Decision.REINSTATE: "The record can be withdrawn again, with another statement.",
    Decision.QUARANTINE: "Nothing is lost. Another moderator releases the record when it is clear.",
    Decision.RELEASE: "The record is as it was before the quarantine.",
    Decision.HIDE: "Nothing is lost. It comes back by itself after 24 hours, unless a moderator "
                   "confirms that it has to stay hidden.",
    Decision.KEEP_HIDDEN: "Nothing is lost. Another moderator can show it again.",
    Decision.SHOW_AGAIN: "It is as it was before.",
    Decision.REPORT_UPHELD: "What was done about it is a decision of its own.",
    Decision.REPORT_DISMISSED: "The content stays as it is.",
    Decision.SUSPEND: "You can still sign in, read, export your data and appeal. Nothing of yours "
                      "is lost, and a moderator can lift the suspension.",
    Decision.LIFT: "The account can write again.",
    Decision.ROLE: "A role can be given back in the same way, by two people.",
    Decision.MERGE: "Both records are kept, and no evidence was mixed. A moderator can make the "
                    "record public again.",
    Decision.APPEAL_UPHELD: FINAL,
    Decision.APPEAL_REVERSED: "The first statement is kept unchanged beside this one.",
    Decision.COMMENT_REMOVED: "The comment is kept, out of sight.",
    Decision.REPLY_DECLINED: "The reply is kept, out of sight, and can be sent in another wording.",
}
# How its addressee hears of a decision; of those that are not here the service itself tells them.
TOLD_AS: dict[str, str] = {
    Decision.SEND_BACK: NoticeKind.SENT_BACK, Decision.DECLINE: NoticeKind.DECLINED,
    Decision.REPORT_UPHELD: NoticeKind.REPORT, Decision.REPORT_DISMISSED: NoticeKind.REPORT,
    Decision.SUSPEND: NoticeKind.ACCOUNT, Decision.LIFT: NoticeKind.ACCOUNT,
    Decision.ROLE: NoticeKind.ACCOUNT,
    **dict.fromkeys((Decision.QUARANTINE, Decision.RELEASE, Decision.HIDE, Decision.KEEP_HIDDEN,
                     Decision.SHOW_AGAIN, Decision.MERGE, Decision.APPEAL_UPHELD,
                     Decision.APPEAL_REVERSED), NoticeKind.DECISION),
}


class NoReason(ValueError):
    """A decision without a reason of the list or without facts; the text is for the page."""


def draft_statement(*, decision: str, code: str, facts: str, subject: str,
                    unit: Unit | None = None, addressee: User | None = None,
                    by: User | None = None, report: Report | None = None,
                    answers: Statement | None = None) -> Statement:
    """The statement as it would be given, not saved. by : None for what the stated rule did."""
    if code not in BY_CODE:
        raise NoReason("Choose a reason of the list.")
    if not facts.strip():
        raise NoReason("Write what was seen, and where: the facts that the decision rests on.")
    return Statement(decision=decision, code=code, rule=BY_CODE[code].rule, facts=facts.strip(),
                     subject=subject, unit=unit, addressee=addressee, by=by, automated=by is None,
                     report=report, answers=answers, remedy=_remedy(decision, addressee))


def give_reasons(**what: Any) -> Statement:
    """The statement, kept for good and told to its addressee, in the caller's transaction.

    Its `traces` belong into the audit entry of the decision.
    """
    statement = draft_statement(**what)
    statement.save()
    if statement.addressee_id and statement.decision in TOLD_AS:
        notify([statement.addressee_id], TOLD_AS[statement.decision], unit=statement.unit,
               subject=statement.subject, words=f"{statement.get_decision_display()}.",
               address=reverse("statement", args=[statement.uid]),
               event=f"statement/{statement.uid}")
    return statement


def traces(statement: Statement) -> dict[str, str]:
    """What the audit log keeps of a statement, so that an alteration of it would show."""
    return {"statement": str(statement.uid), "statement_digest": statement.digest,
            "code": statement.code}


def _remedy(decision, addressee):
    appeal = APPEAL if decision in RESTRICTS and addressee is not None else ""
    return " ".join(filter(None, (UNDONE[decision], appeal)))
