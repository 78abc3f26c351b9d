"""Requests that a program makes for a person: `Authorization: Bearer upl_…`.

The checks are those of a person in a browser (`core.policy`), as a contributor: a token is one
factor, so it carries no trusted role. No cookie is read or set, so nothing can be forged by a
page elsewhere and CSRF tokens are not asked for.
"""
from django.http import HttpResponse

from core.accounts.models import Scope
from core.accounts.services.api_tokens import find_token
from core.accounts.urls import ACCOUNT_PAGES

READS = {"GET", "HEAD", "OPTIONS"}
UNKNOWN = ("This token is not known, or has expired or been revoked. Make another under Account, "
           "API tokens, and send it as “Authorization: Bearer …”.")
NOT_FOR_TOKENS = "This address is for people who have signed in, not for tokens."


class BearerToken:
    """Middleware: stands before sessions, so that a request with a token has none."""

    def __init__(self, get_response):
        self.get_response = get_response

    def __call__(self, request):
        scheme, _, text = request.headers.get("Authorization", "").partition(" ")
        if scheme.lower() != "bearer":
            return self.get_response(request)
        request.api_token = find_token(text.strip())
        if request.api_token is None:
            return refuse(UNKNOWN, 401)
        request.COOKIES = {}
        request._dont_enforce_csrf_checks = True
        response = self.get_response(request)
        response.cookies.clear()
        return response

    def process_view(self, request, view, args, kwargs):
        token = getattr(request, "api_token", None)
        if token is None:
            return None
        if request.resolver_match.view_name in ACCOUNT_PAGES:
            return refuse(NOT_FOR_TOKENS, 403)
        scope = Scope.READ if request.method in READS else Scope.CONTRIBUTE
        if scope not in token.scopes:
            return refuse(f"This token may not do this: it lacks the scope “{scope}”.", 403)
        request.user = token.owner
        request.user.acts_in_role = False
        return None


def refuse(words, status):
    response = HttpResponse(words + "\n", "text/plain; charset=utf-8", status)
    if status == 401:
        response["WWW-Authenticate"] = 'Bearer realm="Underplate"'
    return response
