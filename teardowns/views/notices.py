"""What one was told, read and unread; how often by e-mail; and the end of the e-mails."""
from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_POST

from core.buckets import HOUR, limited
from core.whole_number import whole_number
from teardowns import access
from teardowns.forms.discussion_forms import DigestForm
from teardowns.models import DigestChoice, DigestSetting, Notice
from teardowns.presenting.discussion_notices import notice_rows
from teardowns.services.notify import read_notices
from teardowns.services.send_digests import choose_digest, digest_person, stop_digests

PAGE_SIZE = 50
SAVED = {"daily": "You get an e-mail once a day, when there is something new.",
         "never": "You get no e-mails with what is new. It stands on this page all the same."}


def notices(request):
    if request.method == "POST":
        return _mark_read(request)
    told = Notice.objects.filter(person=request.user).select_related("unit")
    page = Paginator(told, PAGE_SIZE).get_page(request.GET.get("page"))
    unread = told.unread().count()
    rows = notice_rows(page.object_list, access.units_seen_by(request.user))
    return render(request, "teardowns/notices.html", {
        "rows": rows, "page": page, "unread": unread, "number": f"{unread} unread",
        "newest": rows[0]["pk"] if rows else "",
        "form": DigestForm(initial={"every": _chosen(request.user)})})


def _mark_read(request):
    """One notice by its number, or all up to the newest that the page showed."""
    pk, up_to = (whole_number(request.POST.get(name, "")) for name in ("notice", "up_to"))
    if pk is None and up_to is None:
        raise Http404("No such notice.")
    count = read_notices(person=request.user, pk=pk, up_to=up_to)
    messages.success(request, "1 notice is marked as read." if count == 1
                     else f"{count} notices are marked as read.")
    return redirect("notices")


def _chosen(person):
    setting = DigestSetting.objects.filter(person=person).first()
    return setting.every if setting else DigestChoice.DAILY


@require_POST
def digest_setting(request):
    form = DigestForm(request.POST)
    if form.is_valid():
        choose_digest(person=request.user, **form.cleaned_data)
        messages.success(request, SAVED[form.cleaned_data["every"]])
    else:
        messages.error(request, "Choose how often you want an e-mail.")
    return redirect("notices")


# A provider of mail asks for many of its readers from one network.
@limited("digest_stop", network=(600, HOUR), methods=("GET", "POST"))
@csrf_exempt
def digest_stop(request, token):
    """No more e-mails, without signing in. A mail program sends the POST by itself (RFC 8058)."""
    if digest_person(token) is None:
        raise Http404("This link is not whole. Open the one of the latest e-mail.")
    if request.method == "POST":
        stop_digests(token)
    return render(request, "teardowns/digest_stop.html", {"stopped": request.method == "POST"})
