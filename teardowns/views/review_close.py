"""The end of a review: everything is decided, and the moderator has the next word."""
from django.contrib import messages
from django.shortcuts import redirect

from core.once import once
from teardowns.forms.review_forms import CloseForm
from teardowns.services.claim_review import close_review
from teardowns.services.review_rows import unit_under_review
from teardowns.views.review_sheet import sheet_page
from teardowns.workflow import NotNow


@once
def review_close(request, pk):
    unit = unit_under_review(request.user, pk)
    form = CloseForm(request.POST)
    if not form.is_valid():
        return sheet_page(request, unit, close=form)
    try:
        close_review(reviewer=request.user, unit_pk=pk, **form.cleaned_data)
    except NotNow as error:
        form.add_error(None, str(error))
        return sheet_page(request, unit, close=form)
    messages.success(request, "Your review is closed. A moderator decides about the record next.")
    return redirect("review_queue")
