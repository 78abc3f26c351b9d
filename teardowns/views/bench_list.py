"""A person's bench sheets: those to write on, those handed in, and the way to a new one."""
from django.db.models import Count, OuterRef, Q, Subquery
from django.db.models.functions import Coalesce
from django.shortcuts import render
from django.urls import reverse

from teardowns.figures.marks import verdict_chip
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.sections import SECTIONS
from teardowns.models import Assessment, ReviewRemark, Status, Unit
from teardowns.presenting.bench_states import correction_words, state_words
from teardowns.presenting.room_words import room_words
from teardowns.services.account_room import room_of
from teardowns.workflow import OPEN, WAITING

MOST_SHEETS = 200


def bench_list(request):
    sheets = [_sheet(unit, request.user) for unit in _units(request.user)]
    return render(request, "teardowns/bench_list.html", {
        "open_sheets": [sheet for sheet in sheets if sheet["is_open"]],
        "others": [sheet for sheet in sheets if not sheet["is_open"]], "deferral": DEFERRAL,
        "room": room_words(room_of(request.user)),
    })


def _units(user):
    latest = Assessment.objects.filter(unit=OuterRef("pk"), confirmed_only=False)
    return Unit.objects.with_work().filter(
        Q(contributor=user) | Q(work_author=user.pk)).exclude(status=Status.DISCARDED).annotate(
        verdict=Subquery(latest.values("verdict")[:1]), remarks_open=_remarks(),
    ).select_related("publication").order_by("-changed_at")[:MOST_SHEETS]


def _remarks():
    """How many remarks on the work are not answered."""
    same = Q(correction=OuterRef("work_correction")) | Q(correction=None, unit__publication=None)
    found = ReviewRemark.objects.unanswered().filter(same, unit=OuterRef("pk")).order_by()
    return Coalesce(Subquery(found.values("unit").annotate(n=Count("pk")).values("n")), 0)


def _sheet(unit, user):
    is_own = unit.work_author == user.pk
    is_open = is_own and unit.work_status in OPEN and unit.quarantined_at is None
    return {
        "unit": unit, "is_open": is_open, "address": _address(unit, is_own, is_open),
        "states": _states(unit, is_own),
        "verdict": verdict_chip(unit.verdict) if unit.verdict else "",
        "changed": f"{unit.changed_at:%Y-%m-%d %H:%M} UTC",
    }


def _states(unit, is_own):
    version = unit.publication.number if unit.publication else None
    words = [state_words(unit.status, remarks=unit.remarks_open, version=version,
                         quarantined=unit.quarantined_at is not None)]
    if unit.work_correction:
        words.append(correction_words(unit.work_status, is_own=is_own,
                                      remarks=unit.remarks_open))
    return words


def _address(unit, is_own, is_open):
    if is_open:
        return reverse("bench_section", args=[unit.pk, SECTIONS[0].slug])
    if is_own and unit.work_status in WAITING:
        return reverse("bench_submit", args=[unit.pk])
    return unit.get_absolute_url()
