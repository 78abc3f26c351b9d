"""One section of the bench sheet: draw it, grow it, save it; what is typed is never lost."""
import secrets

from django.contrib import messages
from django.contrib.messages import get_messages
from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone

from core.audit.models import Entry
from core.sent_forms import taken_form, takes_sent_form
from teardowns.access import may_change, unit_of_own, unit_to_change
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.plate_reading import claim_rows, without_known
from teardowns.forms.row_set import typed_total, with_row
from teardowns.forms.section_form import SectionForm
from teardowns.forms.sections import BY_SLUG, SECTIONS
from teardowns.models import Assessment, UnsavedSection
from teardowns.presenting.bench_card import bench_card
from teardowns.services.cite_part import SaveRefused
from teardowns.services.keep_typed import discard_typed, keep_typed
from teardowns.services.save_section import StaleRows, save_section
from teardowns.views.bench_panel import panel
from teardowns.views.bench_rail import rail
from teardowns.views.bench_remarks import put_remarks

DISCHARGED = "discharge_confirmed"
CLOSED_KEPT = "This sheet was handed in meanwhile, so nothing is saved. What you typed is kept: " \
              "take the sheet back to go on with it, or propose a correction once it is published."
REDRAWS = ("add_row", "read_text")         # buttons that change the page and save nothing


@takes_sent_form
def bench_section(request, pk, section):
    if section not in BY_SLUG:
        raise Http404("No such section.")
    unit, section = unit_of_own(request.user, pk), BY_SLUG[section]
    if typed := taken_form(request):
        keep_typed(unit, request.user, section.slug, typed)
    if not may_change(request.user, unit):
        return _closed(request, unit, section)
    if request.method == "POST":
        return _answer(request, unit, section, request.POST.dict())
    return _page(request, unit, section, *_drawn(request, unit, section))


def _closed(request, unit, section):
    """To where the sheet stands; a page that was still open loses nothing of what was typed."""
    if request.method == "POST":
        keep_typed(unit, request.user, section.slug, request.POST.dict())
        if "keep" in request.POST:
            return HttpResponse(status=204)
        messages.info(request, CLOSED_KEPT)
    return HttpResponseRedirect(f"{reverse('bench_submit', args=[unit.pk])}#main")


def _drawn(request, unit, section):
    """The section as stored, or as it was typed if that could not be saved yet."""
    unsaved = UnsavedSection.objects.filter(unit=unit, author=request.user)
    kept = {found.section: found for found in unsaved}
    if section.slug not in kept:
        return SectionForm(section, unit), kept
    return _form_of(section, unit, kept[section.slug].fields), kept


def _form_of(section, unit, typed):
    form = SectionForm(section, unit, typed, check=not any(name in typed for name in REDRAWS))
    if form.check:
        form.is_valid()
    return form


def _answer(request, unit, section, typed):
    if "keep" in typed:                # by the script, while one types and before one signs out
        keep_typed(unit, request.user, section.slug, typed)
        return HttpResponse(status=204)
    if "discard" in typed:
        discard_typed(unit, request.user, section.slug)
        return _to_section(unit, section)
    if any(name in typed for name in REDRAWS):
        return _kept_page(request, unit, section, _grown(section, unit, typed))
    return _save(request, unit, section, typed)


def _grown(section, unit, typed):
    """With one more row, or with rows for what the reader found in a text."""
    if "add_row" in typed:
        known = {rows.item.prefix for rows in SectionForm(section, unit).row_sets}
        return with_row(typed, typed["add_row"]) if typed["add_row"] in known else typed
    texts = SectionForm(section, unit, typed).references.get("texts", {})
    key = typed["read_text"]
    for row in without_known(claim_rows(texts.get(key, ""), key), _typed_claims(typed)):
        typed = with_row(typed, "claims", row)
    return typed


def _typed_claims(typed):
    names = ("kind", "text", "printed_text", "voltage", "current", "power", "mark")
    return [{name: typed.get(f"claims-{i}-{name}", "") for name in names}
            for i in range(typed_total(typed, "claims"))]


def _save(request, unit, section, typed):
    form, refusal = SectionForm(section, unit, typed, check=True), ""
    if form.is_valid():
        confirmed = [DISCHARGED] if "discharged" in typed else []
        try:
            saved = save_section(request.user, unit.pk, section.slug, form.row_changes(),
                                 form.unit_change(), confirmed)
        except StaleRows:
            refusal = "Something here was changed elsewhere at the same moment: look through the " \
                      "entries and save again."
        except SaveRefused as error:
            refusal = error.message
        else:
            return _saved(request, unit, section, typed, saved)
    return _kept_page(request, unit, section, typed, refusal)


def _kept_page(request, unit, section, typed, refusal=""):
    keep_typed(unit, request.user, section.slug, typed)
    unit = unit_to_change(request.user, unit.pk)
    return _page(request, unit, section, *_drawn(request, unit, section), refusal=refusal)


def _saved(request, unit, section, typed, saved):
    what = {0: "nothing had changed", 1: "1 entry changed"}.get(
        saved.changed, f"{saved.changed} entries changed"
    )
    text = f"{section.title}: saved at {timezone.now():%H:%M:%S} UTC, {what}."
    if not saved.assessed:
        text += " The verdict could not be worked out again; your entries are safe."
    messages.success(request, text, extra_tags=typed.get("submission", "")[:40])
    return _to_section(unit, _next(section) if "save_next" in typed else section)


def _next(section):
    place = SECTIONS.index(section) + 1
    return SECTIONS[place] if place < len(SECTIONS) else section


def _to_section(unit, section):
    # A browser carries the old fragment (#errors) over unless the new address has its own.
    return HttpResponseRedirect(f"{reverse('bench_section', args=[unit.pk, section.slug])}#main")


def _page(request, unit, section, form, kept, refusal=""):
    following = _next(section)
    stations = rail(unit, section, kept)
    if stations["submit"]["remarks"]:
        put_remarks(form, unit)
    return render(request, "teardowns/bench_section.html", {
        "unit": unit, "section": section, "form": form, "refusal": refusal,
        "errors": form.errors(), "unsaved": kept.get(section.slug),
        "rail": stations,
        "next": following if following is not section else None,
        "panel": panel(unit), "deferral": DEFERRAL, "discharged": _discharged(unit, section),
        "card": _card(unit, section),
        "submission": secrets.token_hex(8),
        "acknowledged": " ".join(m.extra_tags for m in get_messages(request) if m.extra_tags),
    })


def _discharged(unit, section):
    """When the contributor last said that the unit was discharged; the section may not ask."""
    if not section.discharge:
        return None
    return Entry.objects.of_unit(unit).filter(action=DISCHARGED).first()


def _card(unit, section):
    """What may still be charged, before anything is opened or powered; None on paper sections."""
    if not section.cautions:
        return None
    stored = Assessment.objects.filter(unit=unit, confirmed_only=False)
    return bench_card(stored.values_list("payload__safety__bench_card", flat=True).first())
