"""Propose that a published unit belongs to a board family."""
from django.contrib import messages
from django.shortcuts import get_object_or_404, redirect, render

from core.once import once
from teardowns.forms.family_forms import MemberForm
from teardowns.models import BoardFamily
from teardowns.presenting.family_sheet import APART
from teardowns.services.edit_family import propose_member
from teardowns.services.proposals import Refused


@once
def family_propose(request, slug):
    family = get_object_or_404(BoardFamily, slug=slug)
    form = MemberForm(request.POST if request.method == "POST" else None,
                      initial={"unit": request.GET.get("unit", "")[:9]})
    if form.is_bound and form.is_valid():
        try:
            member = propose_member(proposer=request.user, family_pk=family.pk,
                                    unit_pk=form.cleaned_data["unit"],
                                    why=form.cleaned_data["why"])
        except Refused as refused:
            form.refuse(refused.errors)
        else:
            messages.success(request, "Proposed. The unit stands in the family when a moderator "
                                      "has accepted it; you can take it back here.")
            return redirect(member)
    return render(request, "teardowns/family_propose.html",
                  {"family": family, "form": form, "apart": APART})
