"""Hide something at once for personal data; it is back after 24 hours unless that is confirmed."""
from django.contrib import messages
from django.shortcuts import redirect, render

from core.once import once
from teardowns.forms.moderation_forms import HideForm
from teardowns.services.hide_now import hide_now, item_to_hide
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow

DONE = ("Hidden at once. It is back after 24 hours by itself unless a moderator confirms that it "
        "has to stay hidden; a moderator can show it again at any time.")


@once
def hide(request):
    item = item_to_hide(request.user, request.GET.get("about", ""))
    form = HideForm(request.POST if request.method == "POST" else None,
                    use_required_attribute=False)
    if form.is_bound and form.is_valid():
        try:
            hide_now(by=request.user, about=item.about, reason=form.cleaned_data["reason"])
        except (NotNow, NoReason) as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, DONE)
            return redirect("front_page")
    return render(request, "teardowns/hide.html", {"item": item, "form": form})
