"""Accounts for those who answer for them: names, roles and counts, never an address."""
from __future__ import annotations

from typing import Any

from django.db.models import Count, IntegerField, OuterRef, QuerySet, Subquery
from django.db.models.functions import Coalesce

from core.accounts.models import User
from teardowns.models import Report, ReportState, Statement, Unit

from .moderated_unit import AGAINST


def accounts(asked: str = "", role: str = "") -> QuerySet[User]:
    """Those whose name contains what was asked for; suspended ones first."""
    found = User.objects.filter(deleted_at=None).annotate(
        published=_count(Unit.objects.published(), "contributor"),
        against=_count(Statement.objects.filter(decision__in=AGAINST), "addressee"),
        upheld=_count(Report.objects.filter(state=ReportState.UPHELD), "reporter"),
        dismissed=_count(Report.objects.filter(state=ReportState.DISMISSED), "reporter"))
    if asked:
        found = found.filter(username__icontains=asked)
    if role:
        found = found.filter(role=role)
    return found.order_by("suspended_at", "username")


def _count(rows: QuerySet, column: str) -> Any:
    counted = rows.order_by().filter(**{column: OuterRef("pk")}).values(column).annotate(
        n=Count("pk")).values("n")
    return Coalesce(Subquery(counted, output_field=IntegerField()), 0)
