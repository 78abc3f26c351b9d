"""One's own comment: other words while they can be changed, or taken back."""
from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from core.once import once
from core.stale import Stale, both_texts
from teardowns import access
from teardowns.forms.discussion_forms import CommentForm
from teardowns.models import CommentState
from teardowns.services.write_comment import can_change, edit_comment, retract_comment
from teardowns.workflow import NotNow

WAITS = "The new words are kept, and wait for a moderator."


@once
def comment_edit(request, pk):
    comment = access.comment_of_own(request.user, pk)
    form = CommentForm(request.POST if request.method == "POST" else None,
                       initial={"text": comment.text, "version": comment.version})
    stale = None
    if form.is_valid():
        try:
            edited = edit_comment(author=request.user, pk=pk, text=form.cleaned_data["text"],
                                  version=form.cleaned_data["version"] or 0)
        except NotNow as refusal:
            form.add_error(None, str(refusal))
        except Stale as conflict:
            stale = both_texts(conflict, form.cleaned_data, {"text": "Comment"})
            form.data = form.data.copy()
            form.data["version"] = conflict.version
        else:
            is_held = edited.state == CommentState.HELD
            messages.success(request, WAITS if is_held else "The new words stand below.")
            return redirect(edited.get_absolute_url())
    return render(request, "teardowns/comment_edit.html", {
        "comment": comment, "form": form, "stale": stale, "can_change": can_change(comment)})


@require_POST
@once
def comment_retract(request, pk):
    comment = access.comment_of_own(request.user, pk)
    try:
        retract_comment(author=request.user, pk=pk)
    except NotNow as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, "Your comment is taken back. A line says that one stood there.")
    return redirect(comment.get_absolute_url())
