"""What every answer below /api/v1/ has in common, whoever gave it: the API, the policy, Django.

The API knows tokens and no cookies, so that a page elsewhere can neither act for whoever is signed
in nor read what only they may. Scripts of other origins may read what everybody may read, without
a token (CORS); whatever takes a token is for programs that are no pages.
"""
from django.conf import settings
from django.http import HttpResponse
from django.urls import Resolver404, resolve
from django.utils.cache import patch_vary_headers

from core.policy import ANYONE, POLICY
from core.problems import MEDIA_TYPE, problem, speaks_json

SAFE = "GET, HEAD"
ASKED_WITH = "Accept, If-Modified-Since, If-None-Match"
SHOWN = "ETag, Last-Modified, Link, RateLimit, RateLimit-Policy, Retry-After"
A_DAY = "86400"
CLEAR = "The API is read and written over https only: nothing of this request was done."


class SpokenInJson:
    """Middleware: stands before tokens and sessions."""

    def __init__(self, get_response):
        self.get_response = get_response

    def __call__(self, request):
        if not speaks_json(request):
            return self.get_response(request)
        request.COOKIES = {}
        if settings.HTTPS and not request.is_secure():
            return _dressed(request, problem(403, CLEAR))
        if request.method == "OPTIONS":
            return _dressed(request, _offered(request))
        is_head = request.method == "HEAD"
        if is_head:
            request.method = "GET"
        response = _as_problem(self.get_response(request))
        response.cookies.clear()
        return _without_body(_dressed(request, response)) if is_head else \
            _dressed(request, response)


def _offered(request):
    """What an address takes, and what a script of another origin may ask it (a preflight)."""
    stated = _stated(request)
    if stated is None:
        return problem(404)
    answer = HttpResponse(status=204, headers={"Allow": allowed(stated)})
    if _is_open(stated) and request.headers.get("Access-Control-Request-Method") in ("GET", "HEAD"):
        answer["Access-Control-Allow-Methods"] = SAFE
        answer["Access-Control-Allow-Headers"] = ASKED_WITH
        answer["Access-Control-Max-Age"] = A_DAY
    return answer


def allowed(stated):
    """For the header Allow, from the row of the policy."""
    methods = {*stated, "OPTIONS"} | ({"HEAD"} if "GET" in stated else set())
    return ", ".join(sorted(methods))


def _stated(request):
    try:
        return POLICY.get(resolve(request.path_info).view_name)
    except Resolver404:
        return None


def _is_open(stated):
    return stated.get("GET") is ANYONE


def _as_problem(response):
    """An answer that was made for a person, said to a program."""
    if response.status_code in (301, 302) and response["Location"].startswith("/sign-in/"):
        return problem(401, headers={"WWW-Authenticate": 'Bearer realm="Underplate"'})
    if response.status_code < 400 or response.get("Content-Type", "").startswith(MEDIA_TYPE):
        return response
    words = ""
    if response.get("Content-Type", "").startswith("text/plain"):
        words = response.content.decode().strip()
    kept = {name: response[name] for name in ("Allow", "Retry-After", "WWW-Authenticate")
            if name in response}
    return problem(response.status_code, words, headers=kept)


def _dressed(request, response):
    response["Content-Security-Policy"] = "default-src 'none'; frame-ancestors 'none'"
    patch_vary_headers(response, ["Authorization"])
    stated = _stated(request)
    if response.status_code == 405 and stated is not None:
        response["Allow"] = allowed(stated)
    response.headers.setdefault("Cache-Control", "no-cache" if _is_public(request) else "no-store")
    if stated is not None and _is_open(stated) and request.method in ("GET", "HEAD", "OPTIONS") \
            and _is_public(request):
        response["Access-Control-Allow-Origin"] = "*"
        response["Access-Control-Expose-Headers"] = SHOWN
        response["Cross-Origin-Resource-Policy"] = "cross-origin"
    return response


def _is_public(request):
    return "Authorization" not in request.headers


def _without_body(response):
    """As GET, with the length that its content would have."""
    if not response.streaming:
        response.headers.setdefault("Content-Length", str(len(response.content)))
        response.content = b""
    return response
