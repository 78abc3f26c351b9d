"""Browsers that somebody has signed in from, by a signed cookie of their own.

Two things rest on it. Wrong passwords tried elsewhere slow strangers down and never the owner,
whose browser has a count of its own. And a sign-in from a browser not seen before is told by mail.
"""
import secrets
from datetime import timedelta

from django.conf import settings
from django.core import signing
from django.utils.crypto import salted_hmac

COOKIE = "__Host-known" if settings.HTTPS else "known"
SALT = "core.accounts.devices"
AGE = timedelta(days=400)       # what browsers keep at most (RFC 6265bis, from memory)
KEPT = 10                       # marks of people who share a browser; the oldest go first


def _mark(login):
    return salted_hmac(SALT, login.strip().lower(), algorithm="sha256").hexdigest()[:20]


def _read(request):
    try:
        kept = signing.loads(request.COOKIES.get(COOKIE, ""), salt=SALT, max_age=AGE)
    except signing.BadSignature:
        return {"browser": secrets.token_urlsafe(9), "marks": []}
    return kept


def browser_known_to(request, login):
    """The name of this browser if that login was used in it before, else None."""
    kept = _read(request)
    return kept["browser"] if _mark(login) in kept["marks"] else None


def remember(request, response, user):
    """Mark the browser as one from which this person has signed in."""
    kept = _read(request)
    new = [_mark(login) for login in (user.username, user.email) if login]
    marks = [*new, *(mark for mark in kept["marks"] if mark not in new)][:KEPT]
    response.set_cookie(
        COOKIE, signing.dumps({"browser": kept["browser"], "marks": marks}, salt=SALT),
        max_age=AGE, secure=settings.HTTPS, httponly=True, samesite="Lax")
