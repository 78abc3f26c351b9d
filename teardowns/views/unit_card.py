"""The preview picture of a record, for sites that show one beside a link."""
from django.http import Http404, HttpResponse
from django.utils.cache import patch_cache_control

from teardowns.printouts.preview_card import preview_card
from teardowns.services.public_versions import public_versions

FRESH = 3600             # seconds


def unit_card(request, pk):
    """Of the version that stands; `?of=` only tells caches one version's picture from another's."""
    versions = public_versions([(pk, None)])
    if not versions:
        raise Http404("No such unit.")
    answer = HttpResponse(preview_card(versions[0]), content_type="image/png")
    answer["Cross-Origin-Resource-Policy"] = "cross-origin"
    patch_cache_control(answer, public=True, max_age=FRESH)
    return answer
