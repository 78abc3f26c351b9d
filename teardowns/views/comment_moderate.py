"""A moderator reads one comment, and shows or removes it; and the list of those that wait."""
from django.contrib import messages
from django.core.paginator import Paginator
from django.shortcuts import redirect, render

from core.once import once
from core.whole_number import whole_number
from teardowns import access
from teardowns.forms.discussion_forms import RemovalForm
from teardowns.models import Comment, CommentState
from teardowns.presenting.discussion_counts import author_record, in_words
from teardowns.presenting.discussion_thread import discussion_thread, with_trust
from teardowns.services.moderate_comment import release_comment, remove_comment
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow

PAGE_SIZE = 30
JOINED = ("unit", "part", "family", "author")


def moderation_comments(request):
    waiting = Comment.objects.filter(state=CommentState.HELD).order_by("pk")
    page = Paginator(waiting, PAGE_SIZE).get_page(request.GET.get("page"))
    comments = list(with_trust(page.object_list.with_hidden()).select_related(*JOINED))
    rows = [(one.thing, *_shown(one, request.user)) for one in comments]
    return render(request, "teardowns/moderation_comments.html", {
        "rows": rows, "page": page, "number": in_words(page.paginator.count)})


def _shown(comment, reader):
    return discussion_thread([comment], reader, comment.thing, {}, moderates=True, editable={})


@once
def comment_moderate(request, pk):
    comment = access.comment_to_moderate(
        request.user, pk, with_trust(Comment.objects.with_hidden()).select_related(*JOINED))
    is_removal = request.POST.get("act") == "remove"
    form = RemovalForm(request.POST if is_removal else None)
    error = ""
    try:
        if is_removal and form.is_valid():
            remove_comment(moderator=request.user, pk=pk, **form.cleaned_data)
            messages.success(request, "The comment is removed. Its author gets the reasons.")
            return redirect("moderation_comments")
        if request.POST.get("act") == "show":
            release_comment(moderator=request.user, pk=pk, version=_number(request, "version"))
            messages.success(request, "The comment is shown.")
            return redirect("moderation_comments")
    except (NotNow, NoReason) as refusal:
        error = str(refusal)
        comment.refresh_from_db(fields=["text", "version", "state"])
    row, = _shown(comment, request.user)
    return render(request, "teardowns/comment_moderate.html", {
        "comment": comment, "row": row, "form": form, "error": error,
        "earlier": list(comment.history.order_by("-history_id").values_list("text", flat=True))[1:],
        "others": author_record(comment)})


def _number(request, name):
    return whole_number(request.POST.get(name, "")) or 0
