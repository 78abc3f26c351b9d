"""Forms that arrive when they cannot be taken: kept, as they were sent, until they can.

A session ends while somebody types, or a second tab signs in and the page's token is that of the
session before. What such a form holds is put into the visitor's own session, and its page takes it
out again once they are signed in. Nothing is acted on before they look at it and send it anew.
"""
from collections.abc import Callable

from django.contrib import messages
from django.contrib.auth.views import redirect_to_login
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.csrf import csrf_failure

from core import clock
from core.buckets import HOUR, network_of, take

SENT = "sent_form"                  # session key
WRITER = "writer"                   # field
MOST_KEPT = 120_000                 # characters of one form with its names, of a hundred rows too
KEPT_FOR = 86_400                   # s; a form of the day before belongs to nobody's work any more
PER_NETWORK = (120, HOUR)           # forms kept: each may be a session of a stranger
SIGN_IN = "You were signed out. What you sent is kept: sign in, look through it and save it."
OLD_PAGE = ("This page was open since before you signed in, so nothing is saved yet. What you sent "
            "is kept: look through it and save again.")


def takes_sent_form(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
    """Decorate a view that calls `taken_form` when it draws its page."""
    vars(view)["takes_sent_form"] = True        # a decorator around it carries it on
    return view


def kept_until_sign_in(request: HttpRequest) -> HttpResponse:
    """The way to the sign-in page and back, for whoever asks for what takes an account."""
    if _is_to_keep(request) and _kept(request, SIGN_IN):
        request.session.set_expiry(KEPT_FOR)
    return redirect_to_login(request.get_full_path())


def old_token(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Django's view for a form whose token does not fit.

    Only a form of this very site is kept, as the browser itself says: else any page could put
    words into somebody's sheet.
    """
    if not (_is_to_keep(request) and _is_of_this_site(request)):
        return csrf_failure(request, reason)
    if not request.user.is_authenticated:
        return kept_until_sign_in(request)
    if not _kept(request, OLD_PAGE):
        return csrf_failure(request, reason)
    # A browser carries the old fragment over unless the new address has its own.
    return HttpResponseRedirect(f"{request.get_full_path()}#main")


def taken_form(request: HttpRequest) -> dict[str, str]:
    """The fields that were sent to this address in vain, once; {} as a rule."""
    if request.session.get(SENT, {}).get("path") != request.path:
        return {}
    kept = request.session.pop(SENT)
    request.session.set_expiry(None)        # from here on as of any other session
    return kept["fields"] if clock.now().timestamp() - kept["at"] < KEPT_FOR else {}


def taken_words(request: HttpRequest) -> dict[str, str]:
    """The same where nothing but the form says whose it is: to nobody but who wrote it.

    Their page has a field WRITER with the number of their account.
    """
    if not request.user.is_authenticated:
        return {}                           # it waits for whoever signs in
    fields = taken_form(request)
    return fields if fields.get(WRITER) == str(request.user.pk) else {}


def _is_to_keep(request):
    """A form that a person sent; what a script sends in the background stays in its page."""
    view = request.resolver_match.func if request.resolver_match else None
    return (request.method == "POST" and getattr(view, "takes_sent_form", False)
            and request.headers.get("Sec-Fetch-Mode", "navigate") == "navigate")


def _is_of_this_site(request):
    origin = f"{request.scheme}://{request.get_host()}"
    return (request.headers.get("Sec-Fetch-Site") == "same-origin"
            or request.headers.get("Origin") == origin)


def _kept(request, text):
    """Whether it is; then the next page says so."""
    fields = request.POST.dict()
    fields.pop("csrfmiddlewaretoken", None)
    if sum(map(len, (*fields, *fields.values()))) > MOST_KEPT:
        return False
    if take("sent_forms", network_of(request), *PER_NETWORK):
        return False
    request.session[SENT] = {"path": request.path, "fields": fields,
                             "at": clock.now().timestamp()}
    messages.info(request, text)
    return True
