"""Words that moderators often need: kept once, inserted anywhere, retired when they are stale."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render

from core.once import once
from core.stale import Stale, both_texts
from core.whole_number import whole_number
from teardowns.forms.moderation_forms import SavedReplyForm
from teardowns.models import SavedReply
from teardowns.reasons import BY_CODE
from teardowns.services.keep_saved_reply import keep_saved_reply, retire_saved_reply
from teardowns.workflow import NotNow

LABELS = {"title": "Title", "code": "Reason it goes with", "text": "Text"}


@once
def saved_replies(request):
    changed = _chosen(request.GET.get("change"))
    if request.method == "POST" and request.POST.get("act") == "retire" and changed:
        retire_saved_reply(moderator=request.user, pk=changed.pk)
        messages.success(request, f"“{changed.title}” is offered no more.")
        return redirect("saved_replies")
    form = SavedReplyForm(request.POST) if request.method == "POST" else SavedReplyForm(
        initial=_initial(changed))
    stale = None
    if form.is_bound and form.is_valid():
        stale = _keep(request, form, changed)
        if stale is None and not form.errors:
            messages.success(request, "Kept. It can be inserted wherever a decision is written.")
            return redirect("saved_replies")
    return render(request, "teardowns/saved_replies.html", {
        "form": form, "changed": changed, "stale": stale,
        "version": stale_version(form, changed, stale), "rows": _rows()})


def stale_version(form, changed, stale):
    """What the next try says it has seen."""
    if stale is not None or not form.is_bound:
        return changed.version if changed else ""
    return form.data.get("version", "")


def _chosen(number):
    if not number:
        return None
    reply = SavedReply.objects.filter(pk=whole_number(number), retired_at=None).first()
    if reply is None:
        raise Http404("No such saved reply.")
    return reply


def _initial(reply):
    return {name: getattr(reply, name) for name in LABELS} if reply else {}


def _keep(request, form, changed):
    """The two texts when somebody changed it meanwhile; else None, errors on the form."""
    said = form.cleaned_data
    try:
        keep_saved_reply(moderator=request.user, pk=changed.pk if changed else None,
                         seen=said["version"], title=said["title"], code=said["code"],
                         text=said["text"])
    except Stale as stale:
        changed.refresh_from_db()
        return both_texts(stale, form.data, LABELS)
    except NotNow as refusal:
        form.add_error("title", str(refusal))
    return None


def _rows():
    return [{"pk": one.pk, "title": one.title, "text": one.text,
             "reason": BY_CODE[one.code].words if one.code else "any reason",
             "by": one.author.get_username()}
            for one in SavedReply.objects.filter(retired_at=None).select_related("author")]
