"""Propose a change of the part library: a new part, or something of a part that it has."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render

from core.once import once
from core.stale import Stale
from core.whole_number import whole_number
from teardowns import access
from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.number_fields import shown_text
from teardowns.forms.part_forms import FORMS
from teardowns.forms.quantity_field import typed_text
from teardowns.models import Change, Part, PartProposal
from teardowns.presenting.part_sheet import limit_lines, stale_lines
from teardowns.reading.markings_alike import alike
from teardowns.services.proposals import Refused
from teardowns.services.propose_part import propose_part

from .part_list import found_by_marking

TITLES = {
    Change.PART: "Propose a part", Change.DESCRIPTION: "Propose another description",
    Change.LIMIT: "Propose a limit", Change.LIMIT_CHANGED: "Propose another value or source",
    Change.LIMIT_REMOVED: "Propose to take a limit out",
    Change.SUPERSEDED: "Propose what supersedes it",
}
SENT = "Proposed. It counts for nothing before a moderator accepts it; you can take it back here."


@once
def part_propose(request, pk=None):
    part = access.part_to_see(request.user, pk) if pk else None
    change, limit = _asked(request.GET, part)
    again = _earlier(request, change)
    form = FORMS[change](request.POST if request.method == "POST" else None,
                         initial=_initial(request.GET, part, limit, again),
                         **({"quantity": limit.quantity} if change == Change.LIMIT_CHANGED else {}))
    stale = None
    if form.is_bound and form.is_valid():
        try:
            made = propose_part(
                proposer=request.user, change=change, part=part, limit=limit,
                seen=form.cleaned_data["seen"], why=form.cleaned_data["why"], **form.said())
        except Refused as refused:
            form.refuse(refused.errors)
        except Stale as changed:
            part.refresh_from_db()
            stale = stale_lines(form.texts(), changed.current, limit.quantity if limit else "")
            form.see_now(part.version)
        else:
            messages.success(request, SENT)
            return redirect(made)
    return render(request, "teardowns/part_propose.html", {
        "title": TITLES[change], "part": part, "form": form, "stale": stale,
        "limit": limit_lines([limit], QUANTITIES)[0] if limit else None,
        "alike": _alike(form) if change == Change.PART else None,
    })


def _asked(query, part):
    """The kind of change, and the limit that it is about; 404 for an address nobody links to."""
    change = query.get("what", Change.PART if part is None else "")
    if change not in FORMS or (part is None) != (change == Change.PART):
        raise Http404("There is nothing of this kind to propose.")
    if change not in (Change.LIMIT_CHANGED, Change.LIMIT_REMOVED):
        return Change(change), None
    wanted = query.get("limit", "")
    limit = part.limits.filter(pk=wanted).first() if whole_number(wanted) is not None else None
    if limit is None:
        raise Http404("The part has no such limit any more.")
    return Change(change), limit


def _earlier(request, change):
    """A proposal of one's own that is worded anew, or None."""
    wanted = request.GET.get("again", "")
    if whole_number(wanted) is None:
        return None
    return PartProposal.objects.filter(pk=wanted, proposer=request.user, change=change).first()


def _initial(query, part, limit, again):
    if again is not None:
        given = {name: getattr(again, name) for name in (
            "marking", "function", "package", "note", "quantity", "document", "revision", "place",
            "page", "why")}
        given["value"] = _typed(again.quantity, again.value)
        given["successor"] = again.successor.marking if again.successor else ""
        return given | {"seen": part.version if part else None}
    if part is None:
        return {"marking": query.get("marking", "")[:80]}
    given = {"seen": part.version, "function": part.function, "package": part.package,
             "note": part.note,
             "successor": part.superseded_by.marking if part.superseded_by else ""}
    if limit is not None:
        given["value"] = _typed(limit.quantity, limit.value)
    return given


def _typed(code, value):
    quantity = QUANTITIES.get(code)
    return shown_text(typed_text(value, quantity.unit, quantity.shown_in)) if quantity else ""


def _alike(form):
    """An entry of the library with the same letters, which may be the part that is meant."""
    marking = (form["marking"].value() or "").replace("\0", "")
    if not alike(marking):
        return None
    return next((part for part in found_by_marking(Part.objects.listed(), marking)[:20]
                 if alike(part.marking) == alike(marking)), None)
