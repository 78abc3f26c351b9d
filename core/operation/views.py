"""Alive, ready, and the metrics: the first two without details, the third for administrators."""
import base64
import binascii
import secrets

from django.conf import settings
from django.http import Http404, HttpResponse
from prometheus_client import CollectorRegistry
from prometheus_client.exposition import CONTENT_TYPE_LATEST, generate_latest

from core.operation.counts import counted
from core.operation.gauges import Gauges
from core.operation.ready import lacking
from core.policy import ADMINISTER, is_allowed

USER = "metrics"        # whose password METRICS_TOKEN is


def alive(request):
    """The process answers; nothing is asked of the database."""
    return _said("alive", 200)


def ready(request):
    """Whether requests may be sent here; strangers are not told what is missing."""
    missing = lacking()
    return _said("not ready" if missing else "ready", 503 if missing else 200)


def metrics(request):
    """The figures, in the text format of Prometheus; for all others as if it were not there."""
    if not (has_token(request) or is_allowed(request.user, ADMINISTER)):
        raise Http404
    now = CollectorRegistry()
    now.register(Gauges())
    return HttpResponse(generate_latest(counted()) + generate_latest(now),
                        content_type=CONTENT_TYPE_LATEST, headers={"Cache-Control": "no-store"})


def has_token(request):
    """HTTP Basic (RFC 7617) with METRICS_TOKEN as the password."""
    scheme, _, sent = request.headers.get("Authorization", "").partition(" ")
    if not settings.METRICS_TOKEN or scheme.lower() != "basic":
        return False
    try:
        text = base64.b64decode(sent, validate=True)
    except (binascii.Error, ValueError):
        return False
    return secrets.compare_digest(text, f"{USER}:{settings.METRICS_TOKEN}".encode())


def _said(word, status):
    return HttpResponse(f"{word}\n", content_type="text/plain; charset=utf-8", status=status,
                        headers={"Cache-Control": "no-store"})
