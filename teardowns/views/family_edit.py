"""A moderator opens a board family, or changes its name and what is said of it."""
from django.contrib import messages
from django.shortcuts import get_object_or_404, redirect, render

from core.once import once
from core.stale import Stale, both_texts
from teardowns.forms.family_forms import FamilyForm
from teardowns.models import BoardFamily
from teardowns.presenting.family_sheet import NAMES
from teardowns.presenting.lookalike_rows import why_text
from teardowns.services.edit_family import TEXTS, create_family, rename_family
from teardowns.services.proposals import Refused
from teardowns.views.family_propose import pair_of


@once
def family_edit(request, slug=None):
    family = get_object_or_404(BoardFamily, slug=slug) if slug else None
    given = {name: getattr(family, name) for name in TEXTS} if family else offered(request.GET)
    form = FamilyForm(request.POST if request.method == "POST" else None,
                      initial=given | {"seen": family.version if family else None})
    stale = None
    if form.is_bound and form.is_valid():
        try:
            kept = _kept(request.user, family, form)
        except Refused as refused:
            form.refuse(refused.errors)
        except Stale as changed:
            family.refresh_from_db()
            stale = both_texts(changed, form.texts(), NAMES)
            form.see_now(family.version)
        else:
            messages.success(request, "Kept. What it said before stays in the history.")
            return redirect(kept)
    return render(request, "teardowns/family_edit.html",
                  {"family": family, "form": form, "stale": stale})


def _kept(moderator, family, form):
    texts = {name: form.cleaned_data[name] for name in TEXTS}
    if family is None:
        return create_family(moderator=moderator, alike=form.cleaned_data["alike"], **texts)
    return rename_family(moderator=moderator, family_pk=family.pk,
                         version=form.cleaned_data["seen"], **texts)


def offered(asked):
    """For a family that is opened because two units look alike."""
    pair = pair_of(asked)
    return {"alike": pair.pk, "evidence_for": why_text(pair)} if pair else {}
