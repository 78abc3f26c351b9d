"""A record's verdict as a picture to embed; it never shows one that does not stand."""
from hashlib import sha256

from django.http import HttpResponse
from django.utils.cache import get_conditional_response, patch_cache_control

from teardowns.models import Status, Unit
from teardowns.presenting.badge_of import badge_absent, badge_of, badge_withdrawn
from teardowns.services.public_versions import public_versions, shown_assessments

FRESH = 300              # seconds for which a copy may be shown unasked


def unit_badge(request, pk):
    """Of the version that stands."""
    return _answer(request, _drawn(pk, None))


def unit_version_badge(request, pk, number):
    """Of one version, with the numbers of its day; it says when it is not the newest."""
    return _answer(request, _drawn(pk, number))


def _drawn(pk, number):
    """Always a picture and always 200: a page elsewhere would go on showing the one it has."""
    versions = public_versions([(pk, number)])
    if not versions:
        gone = Unit.objects.filter(pk=pk, status=Status.WITHDRAWN, quarantined_at=None).exists()
        return badge_withdrawn(pk) if gone else badge_absent()
    publication, = versions
    report = shown_assessments(publication)[0].payload
    return badge_of(publication, report, stands=publication.pk == publication.unit.publication_id)


def _answer(request, drawing):
    etag = f'"{sha256(drawing.encode()).hexdigest()[:32]}"'
    fresh = HttpResponse(drawing, content_type="image/svg+xml; charset=utf-8")
    answer = get_conditional_response(request, etag=etag, response=fresh)
    answer["ETag"] = etag
    answer["Cross-Origin-Resource-Policy"] = "cross-origin"
    # It is looked at by itself too: nothing in it may run or load.
    answer["Content-Security-Policy"] = "default-src 'none'; frame-ancestors 'none'"
    patch_cache_control(answer, public=True, max_age=FRESH)
    return answer
