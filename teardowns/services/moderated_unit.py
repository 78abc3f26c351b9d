"""One record as a moderator looks at it: its work, its author's record, what was said of it."""
from __future__ import annotations

from typing import Any

from django.db.models import (
    CharField,
    Count,
    F,
    IntegerField,
    OuterRef,
    QuerySet,
    Subquery,
    Value,
)
from django.db.models.functions import Cast, Coalesce

from core.accounts.models import User
from teardowns.models import (
    Charge,
    Decision,
    Report,
    ReviewDecision,
    ReviewState,
    Statement,
    Status,
    Unit,
)

AGAINST = (Decision.SEND_BACK, Decision.DECLINE, Decision.WITHDRAW, Decision.QUARANTINE,
           Decision.KEEP_HIDDEN, Decision.COMMENT_REMOVED, Decision.SUSPEND)
SHOWN = 60


def moderated_unit(pk: int) -> Unit:
    """The unit with its work, who has taken it on, and the counts of the work's author."""
    units = Unit.objects.with_work().select_related(
        "contributor", "publication", "successor").annotate(
        author_published=_of_author(Unit.objects.published(), "contributor"),
        author_withdrawn=_of_author(Unit.objects.filter(status=Status.WITHDRAWN), "contributor"),
        author_decisions=_of_author(Statement.objects.filter(decision__in=AGAINST), "addressee"),
        owner=Subquery(Charge.objects.filter(subject=f"unit/{pk}").values("owner__username")[:1]))
    return units.get(pk=pk)


def _of_author(rows: QuerySet, column: str) -> Any:
    """How many rows are the author's of what is being worked on."""
    counted = rows.order_by().filter(**{column: OuterRef("work_author")}).values(column).annotate(
        n=Count("pk")).values("n")
    return Coalesce(Subquery(counted, output_field=IntegerField()), 0)


def cases_of(unit: Unit) -> list[dict[str, Any]]:
    """Reports about the unit and decisions, newest first: one query for both."""
    reports = Report.objects.filter(unit=unit).order_by().annotate(
        case=Value("report", CharField()), said=F("text"), when=F("received_at"),
        what=F("code"), number=F("pk"), stage=Cast("state", CharField()),
        by_name=Value("", CharField()))
    statements = Statement.objects.filter(unit=unit).order_by().annotate(
        case=Value("statement", CharField()), said=F("facts"), when=F("at"),
        what=F("decision"), number=F("pk"), stage=Value("", CharField()),
        by_name=Coalesce(F("by__username"), Value("", CharField())))
    columns = ("case", "number", "uid", "what", "said", "when", "stage", "by_name")
    both = reports.values(*columns).union(statements.values(*columns), all=True)
    return list(both.order_by("-when")[:SHOWN])


def author_of_work(unit: Unit) -> User:
    """Who wrote what is being worked on."""
    return User.objects.get(pk=unit.work.author_id)


def disputes_of(unit: Unit) -> list[tuple[str, str]]:
    """What reviewers of the work said against rows: ref and reason, the last word on each."""
    said = ReviewDecision.objects.filter(
        review__unit=unit, review__correction=unit.work.correction).order_by("pk")
    last = {(ref, by): (decision, reason) for ref, by, decision, reason in said.values_list(
        "ref", "review__reviewer", "decision", "reason")}
    return [(ref, reason) for (ref, _), (decision, reason) in last.items()
            if decision == ReviewState.DISPUTED]
