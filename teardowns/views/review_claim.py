"""Take on a review, after a word on conflicts of interest; give it back."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render

from core.once import once
from teardowns.forms.review_forms import SOME, ClaimForm
from teardowns.models import Unit
from teardowns.services.claim_review import IDLE, claim_review, release_review
from teardowns.services.review_queue import waiting_unit
from teardowns.workflow import NotNow


@once
def review_claim(request, pk):
    unit = waiting_unit(pk)
    if unit is None:
        raise Http404("No such unit waits for a review.")
    form = ClaimForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid() and (answer := _claimed(request, unit, form)):
        return answer
    return render(request, "teardowns/review_claim.html", {
        "unit": unit, "form": form, "idle": IDLE.days})


def _claimed(request, unit: Unit, form):
    """Where to go on, or None with the reason why it cannot be taken on."""
    words = form.cleaned_data
    try:
        review = claim_review(reviewer=request.user, unit_pk=unit.pk, conflict=words["conflict"],
                              no_conflict=words["declared"] != SOME)
    except NotNow as error:
        form.add_error(None, str(error))
        return None
    if review.conflict:
        messages.success(request, "Your conflict of interest is kept, and the review is not yours. "
                                  "Thank you for saying so.")
        return redirect("review_queue")
    messages.success(request, "You review this unit now.")
    return redirect("review_sheet", unit.pk)


@once
def review_release(request, pk):
    release_review(reviewer=request.user, unit_pk=pk)
    messages.success(request, "You gave the review back. What you decided stands.")
    return redirect("review_queue")
