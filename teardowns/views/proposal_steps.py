"""What becomes of a proposal to the library: the steps that its pages share."""
from django.contrib import messages
from django.shortcuts import redirect

from teardowns.services.proposals import Refused
from teardowns.workflow import NotNow

TAKEN_BACK = "Taken back: no moderator is asked about it any more."


def decided(request, proposal, form, decide, page):
    """On to the proposal once it is decided, or its page again with what is wrong.

    decide : takes what the form says, returns the words of success; page : makes the page
    """
    if not form.is_valid():
        return page()
    said = {"moderator": request.user, "version": form.cleaned_data["seen"],
            "reason": form.cleaned_data["reason"]}
    try:
        messages.success(request, decide(said))
    except Refused as refused:
        form.refuse(refused.errors)
        return page()
    except NotNow as not_now:
        messages.error(request, str(not_now))
    return redirect(proposal)


def taken_back(request, proposal, take_back):
    try:
        take_back()
    except NotNow as not_now:
        messages.error(request, str(not_now))
    else:
        messages.success(request, TAKEN_BACK)
    return redirect(proposal)
