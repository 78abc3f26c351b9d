"""What waits for a moderator, on one screen: how much, how long, and what nobody has taken on."""
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone

from teardowns.presenting.moderation_rows import (
    appeal_rows,
    approval_rows,
    hidden_rows,
    pile_rows,
    report_rows,
    unit_lists,
)
from teardowns.presenting.moderation_times import age
from teardowns.services import moderation_desk as desk

WORKED_OFF_AT = {"parts": "library_queue", "families": "library_queue",
                 "replies": "moderation_replies", "comments": "moderation_comments"}
FEW = 10


def moderation(request):
    now, piles = timezone.now(), desk.piles()
    lists = unit_lists(desk.waiting_units(request.user), now, desk.SHOWN)
    return render(request, "teardowns/moderation.html", {
        "lists": lists,
        "reports": report_rows(desk.open_reports(request.user)[:FEW], now),
        "appeals": appeal_rows(desk.open_appeals()[:FEW], now),
        "report_pile": piles["reports"], "appeal_pile": piles["appeals"],
        "hidden": hidden_rows(desk.hidden_things()[:desk.SHOWN], now),
        "approvals": approval_rows(desk.waiting_approvals(request.user)[:FEW], now),
        "piles": pile_rows(piles, {key: reverse(name) for key, name in WORKED_OFF_AT.items()}, now),
        "ages": {key: age(piles[key].oldest, now) for key in ("reports", "appeals")},
    })
