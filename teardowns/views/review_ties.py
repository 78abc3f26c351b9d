"""A reviewer's declared ties: whose work is never offered to them."""
from django.contrib import messages
from django.shortcuts import redirect, render

from core.accounts.models import User
from core.once import once
from teardowns.forms.review_forms import TieForm
from teardowns.services.conflicts import declare_tie, declared_ties, end_tie


@once
def review_ties(request):
    ending = request.POST.get("end", "")
    if ending.isdecimal():
        end_tie(person=request.user, pk=int(ending))
        messages.success(request, "The tie has ended today. It stays on record.")
        return redirect("review_ties")
    form = TieForm(request.POST if request.method == "POST" else None, person=request.user,
                   people=User.objects.filter(is_active=True))
    if form.is_bound and form.is_valid():
        declare_tie(person=request.user, relation=form.cleaned_data["relation"],
                    organisation=form.cleaned_data["organisation"], other=form.other)
        messages.success(request, "Declared. What it concerns is no longer offered to you.")
        return redirect("review_ties")
    return render(request, "teardowns/review_ties.html", {
        "form": form, "ties": declared_ties(request.user)})
