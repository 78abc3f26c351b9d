"""What each answer must carry in its headers, whatever it says and to whom."""
import re

from django.conf import settings

from core import said_once
from core.accounts import devices
from core.policy import POLICY

ALWAYS = {"X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin",
          "Cross-Origin-Opener-Policy": "same-origin"}
FOR_ALL = ("default-src 'none'", "frame-ancestors 'none'")
FOR_PAGES = ("object-src 'none'", "base-uri 'none'", "form-action 'self'")
UNSAFE = re.compile(r"unsafe|data:|blob:|https?:|\*")
EMBEDDED = {"unit_badge", "unit_version_badge", "unit_card"}     # other sites show these
# Pictures of what is not public, in the browser alone: a sheet with many is opened again and again.
KEPT_A_MINUTE = {"photo_picture", "photo_from_above"}
SIGN_OUT = {"sign_out", "account_logout"}       # who sent it is nobody any more in the answer
COOKIES = {settings.SESSION_COOKIE_NAME, settings.CSRF_COOKIE_NAME, settings.LANGUAGE_COOKIE_NAME,
           said_once.COOKIE, devices.COOKIE}
FOR_SCRIPTS = {settings.CSRF_COOKIE_NAME}


def header_faults(name, answer, *, signed_in):
    """Sentences; none of a sound answer. name : of the address, "" where it has none."""
    yield from (f"{header} is {answer.get(header)}" for header, value in ALWAYS.items()
                if answer.get(header) != value)
    if "camera=()" not in answer.get("Permissions-Policy", ""):
        yield "Permissions-Policy lets cameras be used"
    yield from _faults_of_content(answer)
    yield from _faults_of_sharing(name, answer, signed_in)
    yield from _faults_of_cookies(answer)


def _faults_of_content(answer):
    policy, kind = answer.get("Content-Security-Policy", ""), answer.get("Content-Type", "")
    wanted = FOR_ALL + (FOR_PAGES if kind.startswith("text/html") else ())
    if UNSAFE.search(policy) or not all(each in policy for each in wanted):
        yield f"Content-Security-Policy is {policy}"
    if kind.startswith("text/") and "charset=utf-8" not in kind.lower():
        yield f"Content-Type is {kind}"


def _faults_of_sharing(name, answer, signed_in):
    is_public = bool(name) and not POLICY[name].get("GET", POLICY[name].get("POST")).roles
    shared = answer.get("Cross-Origin-Resource-Policy")
    if shared != "same-origin" and not (shared == "cross-origin" and is_public and (
            name in EMBEDDED or (name.startswith("api_") and not signed_in))):
        yield f"Cross-Origin-Resource-Policy is {shared}"
    keeping = answer.get("Cache-Control", "")
    if signed_in and "no-store" not in keeping and name not in SIGN_OUT \
            and not (is_public and "public" in keeping) \
            and not (name in KEPT_A_MINUTE and keeping == "private, max-age=60"):
        yield f"Cache-Control is {keeping} for who is signed in"


def _faults_of_cookies(answer):
    for name, cookie in answer.cookies.items():
        if name not in COOKIES or cookie["samesite"] not in ("Lax", "Strict") \
                or cookie["path"] != "/" or cookie["domain"] \
                or not (cookie["httponly"] or name in FOR_SCRIPTS or cookie["max-age"] == 0):
            yield f"it sets {cookie.output(header='').strip()}"
