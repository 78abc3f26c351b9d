"""How a search may go on, for the element that completes the search box: JSON, the same for all."""
from urllib.parse import urlencode

from django.conf import settings
from django.http import JsonResponse
from django.urls import reverse
from django.utils.cache import patch_cache_control

from core.process_limits import asked_seldom
from teardowns.services.search_suggestions import suggestions

FRESH = 60                  # s: what goes out of sight is not offered for longer
LONGEST = 100
KEYS = 4                    # suggestions are asked for while one types: so many to a search


@asked_seldom("suggestions", lambda: KEYS * settings.SEARCHES)
def search_suggestions(request):
    typed = " ".join(request.GET.get("q", "")[:LONGEST].split())
    browse = reverse("unit_list")
    answer = JsonResponse({"suggestions": [
        {"text": one.text, "address": f"{browse}?{urlencode({'q': one.text})}"}
        for one in suggestions(typed)]})
    patch_cache_control(answer, public=True, max_age=FRESH)
    return answer
