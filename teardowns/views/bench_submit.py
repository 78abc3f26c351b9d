"""Hand in a bench sheet: what a reviewer will ask for, what to look at once more, the terms."""
from dataclasses import dataclass

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse

from core.once import once
from core.sent_forms import taken_form, takes_sent_form
from teardowns import access, licence
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.section_places import place_of
from teardowns.forms.sections import BY_SLUG
from teardowns.forms.submit_form import SubmitForm, ticked
from teardowns.models import (
    Assessment,
    Decision,
    ReviewRemark,
    Statement,
    Status,
    Submission,
    Unit,
    UnsavedSection,
    Work,
)
from teardowns.presenting.asked_rows import AskedRow, Sheet, asked_rows
from teardowns.presenting.bench_states import state_words
from teardowns.presenting.completeness import completeness
from teardowns.presenting.photos_asked import photos_asked
from teardowns.services.check_photo_privacy import check_photo_privacy
from teardowns.services.keep_typed import keep_typed
from teardowns.services.submission_needs import wait_of_new_account
from teardowns.services.submit_unit import FORM, Incomplete, submit_unit
from teardowns.views.bench_rail import SUBMIT, rail
from teardowns.workflow import WAITING, NotNow

SENT = "“{}” is handed in. A reviewer takes it on; you can take it back until it is decided on."
PAGES = {"photo": "bench_photo", "recording": "bench_recording"}
KEPT = "Kept: come back when the sheet is ready."


@dataclass(frozen=True)
class Desk:
    """What the page is about, as it stands at this moment."""

    unit: Unit
    work: Work
    photos: list[dict]
    remarks: list[ReviewRemark]
    unsaved: dict[str, UnsavedSection]
    said_before: dict[str, str]

    def form(self, data=None):
        kept = self.unsaved.get(FORM)
        return SubmitForm(data, has_photos=bool(self.photos), remarks=self.remarks,
                          photos=[each["photo"] for each in self.photos if not each["is_vouched"]],
                          typed=kept.fields if kept else self.said_before)


@once
@takes_sent_form
def bench_submit(request, pk):
    unit = access.unit_of_own(request.user, pk)
    work = unit.work
    if typed := taken_form(request):
        _keep(unit, request.user, typed)
    if not work.is_open or unit.quarantined_at is not None:
        return _where_it_stands(request, unit, work)
    if request.method == "POST":
        return _answer(request, unit, work)
    desk = _desk(request, unit, work)
    return _page(request, desk, desk.form())


def _desk(request, unit, work):
    remarks = ReviewRemark.objects.of_open_work(unit).unanswered().select_related("author") \
        if work.status == Status.SENT_BACK else ()
    unsaved = UnsavedSection.objects.filter(unit=unit, author=request.user)
    photos = photos_asked(unit, request.user)
    return Desk(unit, work, photos, list(remarks), {each.section: each for each in unsaved},
                {} if photos or work.correction else _said_before(unit, request.user))


def _said_before(unit, author):
    """Why a sheet has no photo is told once, also when it was sent back."""
    found = Submission.objects.filter(unit=unit, author=author).order_by("-pk")
    return found.values("why_no_photo").first() or {}


def _answer(request, unit, work):
    """Ticks and words are kept first, whatever becomes of the rest."""
    seen, keys = ticked(request.POST)
    _keep(unit, request.user, request.POST)
    try:
        check_photo_privacy(author=request.user, unit_pk=unit.pk, seen=seen, ticked=keys)
    except Http404:              # another window handed it in since the first look at it above
        return _to_main(unit)
    if request.POST.get("act") == "keep":
        messages.success(request, KEPT)
        return _to_main(unit)
    desk = _desk(request, unit, work)
    form = desk.form(request.POST)
    if form.is_valid() and _handed_in(request, desk, form):
        messages.success(request, SENT.format(unit.title))
        return _to_main(unit)
    return _page(request, desk, form)


def _keep(unit, author, typed):
    keep_typed(unit, author, FORM, {name: text for name, text in typed.items()
                                    if name not in ("once", "act")})


def _to_main(unit):
    # A browser carries the old fragment (#errors) over unless the new address has its own.
    return redirect(f"{reverse('bench_submit', args=[unit.pk])}#main")


def _handed_in(request, desk, form):
    """Whether it is; else the form says what stands in the way."""
    said = form.cleaned_data
    try:
        submit_unit(author=request.user, unit_pk=desk.unit.pk, terms=form.terms(),
                    message=said["message"], why_no_photo=said.get("why_no_photo", ""),
                    answers=form.answers())
    except Incomplete as incomplete:
        for each in incomplete.missing:
            form.add_error(each.field if each.field in form.fields else None, each.sentence)
    except NotNow as error:
        form.add_error(None, str(error))
    else:
        return True
    return False


def _page(request, desk, form):
    unit, rows = desk.unit, asked_rows(desk.unit)
    shown = form.shown_photos()
    return render(request, "teardowns/bench_submit.html", {
        "unit": unit, "correction": desk.work.correction, "form": form,
        "state": state_words(desk.work.status),
        "errors": form.summary({each["photo"].key: each["title"] for each in desk.photos}),
        "asked": completeness(Sheet(unit, rows, [each["shown"] for each in desk.photos],
                                    _report(unit))),
        "photos": [each | {"fields": shown[each["photo"].pk]} for each in desk.photos
                   if each["photo"].pk in shown],
        "vouched": sum(each["is_vouched"] for each in desk.photos),
        "remarks": [_remark(unit, remark, field, rows) for remark, field in form.shown_remarks()],
        "unsaved": [{"title": BY_SLUG[slug].title,
                     "address": reverse("bench_section", args=[unit.pk, slug])}
                    for slug in desk.unsaved if slug in BY_SLUG],
        **_history(request.user, desk), "terms": licence.IN_FORCE,
        "rail": rail(unit, SUBMIT, set(desk.unsaved)), "deferral": DEFERRAL,
    })


def _report(unit):
    stored = Assessment.objects.filter(unit=unit, confirmed_only=False)
    return stored.values_list("payload", flat=True).first()


def _history(author, desk):
    """What was decided on it before; else how long a new account has to wait."""
    if desk.work.status != Status.SENT_BACK:
        return {"wait": wait_of_new_account(author, desk.unit)}
    decided = Statement.objects.filter(unit=desk.unit, decision=Decision.SEND_BACK)
    return {"sent_back": decided.order_by("-pk").first()}


def _remark(unit, remark, field, rows: list[AskedRow]):
    row = next((row for row in rows if row.ref == remark.ref), None)
    return {"remark": remark, "field": field, "address": _address(unit, remark.ref, row),
            "called": row.called if row else remark.ref.replace("/", " ")}


def _address(unit, ref, row):
    """Where what a remark speaks of is written; "" of the whole sheet, or of what is gone."""
    kind, _, key = ref.partition("/")
    if kind in PAGES:
        return reverse(PAGES[kind], args=[unit.pk, key])
    place = place_of(kind, row.which) if row else None
    if place is None:
        return ""
    return f"{reverse('bench_section', args=[unit.pk, place[0]])}#table-{place[1]}"


def _where_it_stands(request, unit, work):
    version = unit.publication.number if unit.publication else None
    sent = unit.submissions.filter(correction=work.correction).select_related("licence").last()
    return render(request, "teardowns/bench_where.html", {
        "unit": unit, "correction": work.correction, "sent": sent,
        "may_take_back": work.status in WAITING,
        "state": state_words(work.status, version=version,
                             quarantined=unit.quarantined_at is not None),
        "remarks": ReviewRemark.objects.of_open_work(unit),
        "decided": Statement.objects.filter(unit=unit, addressee=request.user).first(),
        "deferral": DEFERRAL,
    })
