"""What waits for a moderator, the most pressing first: read for one page, never changed here."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.db.models import (
    Case,
    CharField,
    Count,
    DateTimeField,
    Exists,
    F,
    Min,
    OuterRef,
    Q,
    QuerySet,
    Subquery,
    Value,
    When,
)
from django.db.models.functions import Cast, Coalesce, Concat

from core.accounts.models import User
from teardowns.access import HANDED_IN
from teardowns.models import (
    Appeal,
    AppealState,
    Approval,
    ApprovalState,
    BoardFamilyMember,
    Charge,
    Comment,
    CommentState,
    Correction,
    HiddenNow,
    PartProposal,
    ReplyState,
    ReplyVersion,
    Report,
    ReportState,
    Review,
    ReviewEnding,
    Status,
    Unit,
)

SHOWN = 50              # rows of a list: the rest is counted, and comes up as these are done
WAITS = (Status.SUBMITTED, Status.IN_REVIEW, Status.SENT_BACK)


@dataclass(frozen=True, slots=True)
class Pile:
    """How many of one sort wait, and since when the oldest does."""

    count: int
    oldest: datetime | None


def piles() -> dict[str, Pile]:
    """By sort: parts, families, replies, comments, approvals. One query for all."""
    first, *others = (
        _pile("parts", PartProposal.objects.open(), "proposed_at"),
        _pile("families", BoardFamilyMember.objects.open(), "proposed_at"),
        _pile("replies", ReplyVersion.objects.filter(state=ReplyState.WAITING), "received_at"),
        _pile("comments", Comment.objects.filter(state=CommentState.HELD), "written_at"),
        _pile("approvals", Approval.objects.filter(state=ApprovalState.WAITING), "asked_at"),
        _pile("reports", Report.objects.filter(state=ReportState.OPEN), "received_at"),
        _pile("appeals", Appeal.objects.filter(state=AppealState.OPEN), "opened_at"),
    )
    found = {name: Pile(count, oldest) for name, count, oldest in first.union(*others, all=True)}
    return {name: found.get(name, Pile(0, None)) for name in
            ("parts", "families", "replies", "comments", "approvals", "reports", "appeals")}


def _pile(name, waiting, since):
    return waiting.order_by().annotate(
        pile=Value(name, CharField())).values("pile").annotate(
        count=Count("pk"), oldest=Min(since)).values_list("pile", "count", "oldest")


def waiting_units(but: User) -> QuerySet[Unit]:
    """Records and corrections handed in or sent back, and what is in quarantine; oldest first.

    but : without those this moderator has a part in

    Each with `since`, `reviewed` (a review was closed with everything decided, and none is open),
    `claimed` and `owner`, who took it on after it began to wait.
    """
    units = Unit.objects.with_work().defer("notes").filter(
        Q(work_status__in=WAITS) | Q(quarantined_at__isnull=False, status__in=HANDED_IN)).exclude(
        Q(contributor=but) | Q(work_author=but.pk))
    correction = Correction.objects.filter(unit=OuterRef("pk"), closed_at=None)
    handed_in = Coalesce(Subquery(correction.values("submitted_at")[:1]), "submitted_at",
                         "changed_at")
    since = Case(When(quarantined_at__isnull=False, then=F("quarantined_at")), default=handed_in,
                 output_field=DateTimeField())
    open_reviews = Review.objects.filter(unit=OuterRef("pk"), closed_at=None)
    done = Review.objects.filter(unit=OuterRef("pk"), ending=ReviewEnding.DONE,
                                 closed_at__gte=OuterRef("handed_in"))
    waiting = units.annotate(handed_in=handed_in, since=since, claimed=Exists(open_reviews),
                             reviewed=Exists(done))
    return with_owner(waiting, "unit").order_by("since", "pk")


def open_reports(but: User) -> QuerySet[Report]:
    """The most harmful first, then the least time left.

    but : without those that this moderator made, or about their own record
    """
    waiting = Report.objects.filter(state=ReportState.OPEN).select_related("unit").exclude(
        Q(reporter=but, reporter__isnull=False) | Q(unit__contributor=but, unit__isnull=False))
    return with_since_and_owner(waiting).order_by("-harm", "due_at", "pk")


def open_appeals() -> QuerySet[Appeal]:
    """The least time left first."""
    waiting = Appeal.objects.filter(state=AppealState.OPEN).select_related(
        "statement", "statement__unit", "author")
    return with_since_and_owner(waiting).order_by("due_at", "pk")


def hidden_things() -> QuerySet[HiddenNow]:
    """Those that nobody confirmed first, the least time left first."""
    return HiddenNow.objects.in_force().select_related("unit", "by", "confirmed_by").order_by(
        F("confirmed_at").desc(nulls_first=True), "until", "pk")


def waiting_approvals(person: User) -> QuerySet[Approval]:
    """What this person did not ask for comes first."""
    return Approval.objects.filter(state=ApprovalState.WAITING).select_related(
        "asked_by").annotate(
        own=Case(When(asked_by=person, then=1), default=0)).order_by("own", "asked_at", "pk")


def with_since_and_owner(cases: QuerySet) -> QuerySet:
    """Reports or appeals, annotated as their lists are."""
    kind, since = (("report", "received_at") if cases.model is Report else ("appeal", "opened_at"))
    return with_owner(cases.annotate(since=F(since)), kind)


def with_owner(rows: QuerySet, kind: str) -> QuerySet:
    """Annotated with the name of who took the case on after it began to wait, as `owner`."""
    subject = Concat(Value(f"{kind}/"), Cast(OuterRef("pk"), CharField()))
    charge = Charge.objects.filter(subject=subject, at__gte=OuterRef("since"))
    return rows.annotate(owner=Subquery(charge.values("owner__username")[:1]))
