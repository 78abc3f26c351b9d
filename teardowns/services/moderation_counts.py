"""What moderation did, in numbers for everybody: decisions, reports, appeals, look-ups."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from statistics import median

from django.db.models import Count, Q

from core.audit.models import Entry
from teardowns.models import Appeal, AppealState, Decision, Report, ReportState, Statement


@dataclass(frozen=True, slots=True)
class ModerationCounts:
    """Of a span of time; nothing in it names a person."""

    decisions: tuple[tuple[str, int], ...]      # words and how many, the most frequent first
    automated: int                              # of these, without a person
    reports: int                                # received
    upheld: int                                 # of these
    dismissed: int
    open: int
    median_hours: float | None                  # from receipt to decision; None: none decided
    appeals: int                                # opened
    reversed: int                               # of these
    names_looked_up: int                        # of reporters, with a reason
    originals_taken_out: int                    # of photos and logs, with a reason


def moderation_counts(since: datetime, until: datetime) -> ModerationCounts:
    """since ≤ time < until; five queries."""
    when = (since, until)
    statements = Statement.objects.filter(**_within("at", when)).order_by()
    taken = list(statements.values("decision").annotate(
        n=Count("pk"), by_rule=Count("pk", filter=Q(automated=True))).order_by("-n", "decision"))
    reports = Report.objects.filter(**_within("received_at", when)).aggregate(
        all=Count("pk"), **{state.value: Count("pk", filter=Q(state=state))
                            for state in ReportState})
    appeals = Appeal.objects.filter(**_within("opened_at", when)).aggregate(
        all=Count("pk"), turned=Count("pk", filter=Q(state=AppealState.REVERSED)))
    seen = Entry.objects.filter(**_within("at", when)).aggregate(
        names=Count("pk", filter=Q(action="reporter_seen")),
        originals=Count("pk", filter=Q(action="original_seen")))
    return ModerationCounts(
        decisions=tuple((Decision(one["decision"]).label, one["n"]) for one in taken),
        automated=sum(one["by_rule"] for one in taken), reports=reports["all"],
        upheld=reports["upheld"], dismissed=reports["dismissed"], open=reports["open"],
        median_hours=_median_hours(when), appeals=appeals["all"], reversed=appeals["turned"],
        names_looked_up=seen["names"], originals_taken_out=seen["originals"])


def _within(column, when):
    since, until = when
    return {f"{column}__gte": since, f"{column}__lt": until}


def _median_hours(when):
    spans = Report.objects.filter(resolved_at__isnull=False, **_within(
        "received_at", when)).order_by().values_list("received_at", "resolved_at")
    hours = [(end - start) / timedelta(hours=1) for start, end in spans if end]
    return median(hours) if hours else None
