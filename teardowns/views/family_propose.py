"""Propose that a published unit belongs to a board family."""
from django.contrib import messages
from django.shortcuts import get_object_or_404, redirect, render

from core.once import once
from core.whole_number import whole_number
from teardowns.forms.family_forms import MemberForm
from teardowns.models import BoardFamily, CandidateState, Lookalike
from teardowns.presenting.family_sheet import APART
from teardowns.presenting.lookalike_rows import why_text
from teardowns.services.edit_family import propose_member
from teardowns.services.proposals import Refused


@once
def family_propose(request, slug):
    family = get_object_or_404(BoardFamily, slug=slug)
    form = MemberForm(request.POST if request.method == "POST" else None,
                      initial=offered(request.GET))
    if form.is_bound and form.is_valid():
        try:
            member = propose_member(proposer=request.user, family_pk=family.pk,
                                    unit_pk=form.cleaned_data["unit"],
                                    why=form.cleaned_data["why"],
                                    alike=form.cleaned_data["alike"])
        except Refused as refused:
            form.refuse(refused.errors)
        else:
            messages.success(request, "Proposed. The unit stands in the family when a moderator "
                                      "has accepted it; you can take it back here.")
            return redirect(member)
    return render(request, "teardowns/family_propose.html",
                  {"family": family, "form": form, "apart": APART})


def offered(asked):
    """What the address fills in: a unit, and what was found of a pair that it is one of."""
    given = {"unit": asked.get("unit", "")[:9]}
    pair = pair_of(asked)
    return given | {"alike": pair.pk, "why": why_text(pair)} if pair else given


def pair_of(asked):
    """The pair of units that look alike which an address names, or None."""
    pk = whole_number(asked.get("alike", ""))
    return Lookalike.objects.filter(pk=pk, state=CandidateState.OPEN).first()
