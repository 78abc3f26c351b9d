"""Two units whose boards look alike: all that speaks for and against, and what can be done."""
from django.contrib import messages
from django.shortcuts import get_object_or_404, redirect, render

from core.once import once
from teardowns import access
from teardowns.forms.family_forms import ApartForm
from teardowns.models import BoardFamilyMember, CandidateState, Lookalike
from teardowns.presenting.lookalike_rows import lookalike_row
from teardowns.services.proposals import Refused
from teardowns.services.tell_apart import tell_apart
from teardowns.workflow import NotNow


@once
def lookalike(request, pk):
    """A moderator looks at a pair, and may say that these are two boards."""
    pair = get_object_or_404(Lookalike.objects.select_related("first", "second", "family"), pk=pk)
    form = ApartForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid():
        try:
            tell_apart(moderator=request.user, lookalike_pk=pk,
                       reason=form.cleaned_data["reason"])
        except Refused as refused:
            form.refuse(refused.errors)
        except NotNow as not_now:
            messages.error(request, str(not_now))
            return redirect("library_queue")
        else:
            messages.success(request, "Kept: these two are not proposed again.")
            return redirect("library_queue")
    members = BoardFamilyMember.objects.live().filter(
        unit__in=(pair.first_id, pair.second_id)).select_related("family")
    return render(request, "teardowns/lookalike.html", {
        "row": lookalike_row(pair, members), "form": form,
        "may_decide": pair.state == CandidateState.OPEN and all(
            access.may_decide(request.user, unit) for unit in (pair.first, pair.second)),
    })
