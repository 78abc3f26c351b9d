"""A moderator checks for whom a reply speaks, shows it or not, and answers a dispute."""
from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import Q
from django.shortcuts import redirect, render

from core.once import once
from teardowns import access
from teardowns.forms.discussion_forms import AnswerForm, RemovalForm, VerifyForm
from teardowns.models import ReplyState
from teardowns.models.replies import ReplyVersion
from teardowns.presenting.replies_waiting import replies_waiting, reply_to_check
from teardowns.services.receive_reply import (
    answer_dispute,
    decline_reply,
    verified_as,
    verify_reply,
)
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow

PAGE_SIZE = 30
DONE = {"verify": "The statement stands beside the record now.",
        "decline": "The statement is not shown. Its author gets the reasons.",
        "answer": "The mark is gone; what came of it stands below the statement."}


def moderation_replies(request):
    """What waits to be checked, and which disputes are open; the oldest first."""
    todo = Q(state=ReplyState.WAITING) | Q(
        state=ReplyState.VERIFIED, disputes=True, answered_at=None)
    versions = ReplyVersion.objects.filter(todo).select_related("reply__unit")
    page = Paginator(versions.order_by("received_at", "pk"), PAGE_SIZE).get_page(
        request.GET.get("page"))
    return render(request, "teardowns/moderation_replies.html", {
        "rows": replies_waiting(page.object_list), "page": page,
        "number": f"{page.paginator.count} to look at"})


@once
def reply_moderate(request, pk):
    version = access.reply_version_to_moderate(request.user, pk, ReplyVersion.objects.all())
    known = verified_as(version.reply)
    act = request.POST.get("act", "")
    forms = {
        "verify": VerifyForm(request.POST if act == "verify" else None, known=known,
                             maker=version.reply.unit.maker,
                             initial={"name": known.name if known else version.reply.author_name}),
        "decline": RemovalForm(request.POST if act == "decline" else None),
        "answer": AnswerForm(request.POST if act == "answer" else None),
    }
    if act in forms and forms[act].is_valid():
        try:
            _act(act, request.user, pk, forms[act].cleaned_data)
        except (NotNow, NoReason) as refusal:
            forms[act].add_error(None, str(refusal))
        else:
            messages.success(request, DONE[act])
            return redirect("moderation_replies")
    return render(request, "teardowns/reply_moderate.html", {
        "version": version, **reply_to_check(version), "known": known,
        "forms": forms, "act": act, "waits": version.state == ReplyState.WAITING})


def _act(act, moderator, pk, said):
    if act == "verify":
        verify_reply(moderator=moderator, version_pk=pk, name=said["name"],
                     checked_how=said.get("checked_how", ""),
                     whole_maker=said.get("whole_maker", False))
    elif act == "decline":
        decline_reply(moderator=moderator, version_pk=pk, **said)
    else:
        answer_dispute(moderator=moderator, version_pk=pk, **said)
