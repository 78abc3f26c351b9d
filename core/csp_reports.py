"""What browsers report of the content policy: a page that asked for what it must not.

Only what our own pages did wrong is of use: the directive, what kind of thing was asked for, and
the route of the page. Addresses, samples of scripts and whatever else may speak of a person are
left out. Nobody signs in to report, so a report is small, and a network has few.
"""
import json
import logging
import re
from collections.abc import Iterator
from typing import Any
from urllib.parse import urlsplit

from django.http import HttpRequest, HttpResponse
from django.urls import Resolver404, resolve
from django.views.decorators.csrf import csrf_exempt

from core.buckets import HOUR, network_of
from core.process_limits import buckets
from core.whole_number import whole_number

logger = logging.getLogger("core.csp_reports")
MOST_BYTES, MOST_IN_ONE = 16_000, 10
OF_A_NETWORK, OF_ALL = 60, 600          # an hour, of which each process counts its own
DIRECTIVE = re.compile("[a-z-]{1,40}")
KINDS = {"inline", "eval", "wasm-eval", "data", "blob", "self", "about", "trusted-types-policy",
         "trusted-types-sink", "report-sample"}


@csrf_exempt          # a browser sends it by itself, without a token; nothing is changed by it
def csp_reports(request: HttpRequest) -> HttpResponse:
    """Always 204: a browser can make nothing of a refusal."""
    length = whole_number(request.META.get("CONTENT_LENGTH") or "0")
    if length is not None and length <= MOST_BYTES and _may(request):
        for directive, blocked, route in violations(request.body):
            logger.warning("content policy: %s blocked %s on %s", directive, blocked, route)
    return HttpResponse(status=204)


def _may(request):
    return not (buckets.take("csp_reports", network_of(request), OF_A_NETWORK, HOUR)
                or buckets.take("csp_reports", "", OF_ALL, HOUR))


def violations(body: bytes) -> Iterator[tuple[str, str, str]]:
    """(directive, what was blocked, route of the page) of each report in either form."""
    try:
        said = json.loads(body)
    except (ValueError, RecursionError):
        return
    for report in (said if isinstance(said, list) else [said])[:MOST_IN_ONE]:
        if not isinstance(report, dict):
            continue
        told = report.get("csp-report") or report.get("body")     # CSP 2; Reporting API
        if isinstance(told, dict):
            yield (_directive(told), _blocked(told), _route(told))


def _told(told: dict[str, Any], *names: str) -> str:
    return next((value for name in names if isinstance(value := told.get(name), str)), "")


def _directive(told):
    said = _told(told, "effectiveDirective", "effective-directive", "violated-directive")
    found = DIRECTIVE.match(said)
    return found[0] if found else "something"


def _blocked(told):
    """The kind of what was blocked, and of another site that it was one."""
    said = _told(told, "blockedURL", "blocked-uri")
    if said in KINDS:
        return said
    scheme = said.partition(":")[0]
    return "an address" if scheme in ("http", "https", "ws", "wss") else "something"


def _route(told):
    try:
        return resolve(urlsplit(_told(told, "documentURL", "document-uri")).path).route or "/"
    except (Resolver404, ValueError):
        return "no page of ours"
