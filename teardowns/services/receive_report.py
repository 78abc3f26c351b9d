"""Take in a report by anybody: a case for the moderators, and a receipt for who sent it.

Two different people with confirmed addresses who report personal data in the same photo or
comment, one of them with a published record, hide it for 24 hours (a rule of this project, no
source). It happens once for an item, and never to a record, whose verdict no report moves.
"""
from __future__ import annotations

from contextlib import suppress
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import HiddenKind, HiddenNow, Report, ReportState, Unit
from teardowns.reasons import BY_CODE, REASONS, Reason
from teardowns.workflow import NotNow

from .hide_now import hide_now
from .reported_item import Item, item_seen_by

LONGEST = 4000
AUTOMATIC = frozenset({HiddenKind.PHOTO, HiddenKind.COMMENT})
TWICE = "You have reported this for the same reason already. Your receipt shows where it stands."
BY_RULE = ("Two people reported personal data here, one of them with a published record. Nobody "
           "has looked yet.")


class ReportRefused(ValueError):
    """The report cannot be taken in; the text says why, `receipt` where an earlier one stands."""

    def __init__(self, text: str, receipt: Report | None = None):
        super().__init__(text)
        self.receipt = receipt


@transaction.atomic
def receive_report(*, reporter: User | None, about: str, code: str, text: str) -> Report:
    """reporter : None for who did not sign in. Raises Http404 or ReportRefused."""
    item = item_seen_by(reporter or _Nobody(), about)
    reason = _reason(code)
    if not text.strip():
        raise ReportRefused("Write what is wrong, and where it is to be seen.")
    _wait_turn(reporter, item)
    _refuse_second(reporter, item, code)
    report = Report.objects.create(
        about=item.about, unit=item.unit, code=code, text=text.strip()[:LONGEST],
        harm=reason.harm, reporter=reporter,
        due_at=timezone.now() + timedelta(hours=reason.hours))
    if _is_agreed(item, code):
        _hide(item)
    record(reporter, "report_received", unit=item.unit, subject=f"report/{report.pk}", code=code)
    return report


class _Nobody:
    is_authenticated = False


def _wait_turn(reporter, item):
    """Reports of one person, or about one record, come in one after the other."""
    if reporter is not None:
        User.objects.select_for_update().get(pk=reporter.pk)
    if item.unit is not None:
        Unit.objects.select_for_update().get(pk=item.unit.pk)


def _reason(code) -> Reason:
    if code not in {reason.code for reason in REASONS}:
        raise ReportRefused("Choose what is wrong.")
    return BY_CODE[code]


def _refuse_second(reporter, item, code):
    """One open report a person, thing and reason: a crowd of one counts once."""
    if reporter is None:
        return
    earlier = Report.objects.filter(reporter=reporter, about=item.about, code=code,
                                    state=ReportState.OPEN).first()
    if earlier:
        raise ReportRefused(TWICE, earlier)


def _is_agreed(item, code):
    """Whether the rule of two reports hides it now."""
    if code != "personal_data" or item.kind not in AUTOMATIC:
        return False
    if HiddenNow.objects.of(item.kind, item.pk).exists():
        return False
    in_good_standing = {"reporter__is_active": True, "reporter__suspended_at": None,
                        "reporter__email_verified_at__isnull": False}
    sound = Report.objects.filter(about=item.about, code=code, state=ReportState.OPEN,
                                  **in_good_standing).order_by().values("reporter").distinct()
    return len(sound[:2]) == 2 and Unit.objects.published().filter(contributor__in=sound).exists()


def _hide(item: Item):
    with suppress(NotNow):                      # out of sight already, which is what it is for
        hide_now(by=None, about=item.about, reason=BY_RULE)
