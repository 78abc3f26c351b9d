"""Replies to a record: all of them with their versions; a new one; other words of one's own."""
from django.contrib import messages
from django.shortcuts import redirect, render

from core.buckets import DAY, limited
from core.once import once
from core.sent_forms import taken_words, takes_sent_form
from core.stale import Stale, both_texts
from teardowns import access
from teardowns.forms.discussion_forms import ReplyForm, ReplyVersionForm
from teardowns.models import Reply
from teardowns.models.replies import ReplyVersion
from teardowns.presenting.discussion_thread import evidence_refs
from teardowns.presenting.replies_shown import reply_versions
from teardowns.presenting.replies_shown import unit_replies as replies_of
from teardowns.services.receive_reply import receive_reply, renew_reply
from teardowns.workflow import NotNow

ACCOUNT, NETWORK = (20, DAY), (60, DAY)          # statements
RECEIVED = ("Your statement is kept. A moderator checks for whom you speak, within seven days; "
            "then it stands beside the record. You hear of it under Notices.")
LABELS = {"text": "Your statement", "language": "Language"}


def unit_replies(request, pk):
    unit = access.public_unit(pk)
    person = request.user.pk if request.user.is_authenticated else None
    own = list(Reply.objects.filter(unit=unit, entered_by=person)) if person else []
    versions = ReplyVersion.objects.filter(reply__unit=unit).select_related("reply")
    names = evidence_refs(unit)
    return render(request, "teardowns/unit_replies.html", {
        **replies_of(unit, names), "own": _own(own, versions), "answerable": list(names.items()),
        "may_reply": person is None or access.may_reply(request.user),
        "versions": reply_versions(versions, whole=False)})


def _own(replies, versions):
    """One's own replies with all their versions, whatever came of them."""
    found = reply_versions(versions.filter(reply__in=replies), whole=True) if replies else []
    return [(reply, [one for one in found if one["reply"] == reply.pk]) for reply in replies]


@limited("replies", account=ACCOUNT, network=NETWORK)
@once
@takes_sent_form
def reply_new(request, pk):
    unit = access.public_unit(pk)
    names = evidence_refs(unit)
    about = request.GET.get("about", "")
    about = about if about in names else ""
    form = ReplyForm(request.POST) if request.method == "POST" else ReplyForm(
        initial=taken_words(request))
    if form.is_valid():
        try:
            receive_reply(author=request.user, unit_pk=pk, about=about, **form.cleaned_data)
        except NotNow as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, RECEIVED)
            return redirect("unit_replies", pk)
    return render(request, "teardowns/reply_new.html", {
        "unit": unit, "form": form, "about_name": names.get(about, "")})


@limited("replies", account=ACCOUNT, network=NETWORK)
@once
def reply_edit(request, pk, reply):
    unit = access.public_unit(pk)
    reply = access.reply_of_own(request.user, pk, reply, Reply.objects.all())
    last = reply.versions.order_by("-number").first()
    initial = {name: getattr(last, name) for name in ("text", "language", "disputes")}
    form = ReplyVersionForm(request.POST if request.method == "POST" else None, initial=initial)
    stale, seen = None, request.POST.get("version", "")
    version = int(seen) if seen.isdecimal() and len(seen) < 10 else reply.version
    if form.is_valid():
        try:
            renew_reply(author=request.user, reply_pk=reply.pk, version=version,
                        **form.cleaned_data)
        except NotNow as refusal:
            form.add_error(None, str(refusal))
        except Stale as conflict:
            stale, version = both_texts(conflict, form.cleaned_data, LABELS), conflict.version
        else:
            messages.success(request, "The new version is kept. A moderator reads it; until then "
                                      "the one before stands.")
            return redirect("unit_replies", pk)
    return render(request, "teardowns/reply_edit.html", {
        "unit": unit, "reply": reply, "form": form, "stale": stale, "version": version})
