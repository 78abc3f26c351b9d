"""What the discussion of a unit, a part and a family have in common: read, and write one more."""
from __future__ import annotations

from django.contrib import messages
from django.core.paginator import Paginator
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode

from core.buckets import HOUR
from core.sent_forms import taken_words
from core.whole_number import whole_number
from teardowns import access
from teardowns.forms.discussion_forms import CommentForm
from teardowns.models import CommentState
from teardowns.models.discussion import kind_of
from teardowns.presenting.discussion_counts import in_words
from teardowns.presenting.discussion_thread import discussion_thread, with_trust
from teardowns.services.watch import watches
from teardowns.services.write_comment import can_change, write_comment
from teardowns.workflow import NotNow

PAGE_SIZE = 50
ACCOUNT, NETWORK = (30, HOUR), (120, HOUR)       # comments
KEPT = "Your comment stands below."
HELD = ("Your comment is kept and waits for a moderator, for your account is new here or it says "
        "what was said elsewhere. You see it below; others will once it was looked at.")

NO_STANDING = ("You can read, and write once your e-mail address is confirmed and your account is "
               "not suspended. Both stand under Account.")
NOT_HERE = "Nobody writes here now: the record is not public, or your role decides on no content."


def discussion_page(request, thing, heading, names=None, about=""):
    """names : by ref, of a unit's evidence; about : the ref that the page is narrowed to"""
    form = CommentForm(request.POST) if request.method == "POST" else CommentForm(
        initial=taken_words(request))
    if form.is_valid():
        comment = _write(request, form, thing, about)
        if comment is not None:
            return redirect(comment.get_absolute_url())
    comments = access.comments_seen_by(request.user, thing)
    if about:
        comments = comments.filter(ref=about)
    page = _page_of(request, comments)
    shown = list(with_trust(page.object_list))
    rows = discussion_thread(
        shown, request.user, thing, names or {}, moderates=access.may_moderate(request.user),
        editable={one.pk: can_change(one) for one in shown})
    return render(request, "teardowns/discussion.html", {
        "kind": kind_of(thing), "key": getattr(thing, "slug", thing.pk), "heading": heading,
        "about": about, "about_name": (names or {}).get(about, ""), "rows": rows, "form": form,
        "number": in_words(page.paginator.count), "page": page,
        "query": f"{urlencode({'about': about})}&" if about else "",
        "may_write": access.may_write(request.user),
        "may_comment": access.may_comment(request.user, thing),
        "closed": _closed(request.user), "watches": watches(request.user, thing),
        "report": reverse("report"),
    })


def _write(request, form, thing, about):
    try:
        comment = write_comment(author=request.user, thing=thing, ref=about,
                                text=form.cleaned_data["text"])
    except NotNow as refusal:
        form.add_error("text", str(refusal))
        return None
    messages.success(request, HELD if comment.state == CommentState.HELD else KEPT)
    return comment


def _closed(user):
    """Why somebody who is signed in cannot write here."""
    if user.is_authenticated and not user.in_good_standing:
        return NO_STANDING
    return NOT_HERE


def _page_of(request, comments):
    """The page that was asked for, or that `?comment=` stands on, or the last one."""
    pages = Paginator(comments.order_by("pk"), PAGE_SIZE)
    asked = whole_number(request.GET.get("comment", ""))
    if asked is not None:
        before = comments.filter(pk__lt=asked).count()
        return pages.get_page(before // PAGE_SIZE + 1)
    return pages.get_page(request.GET.get("page", pages.num_pages))
