"""How a search may go on, for the element that completes the search box: JSON, the same for all."""
from urllib.parse import urlencode

from django.http import JsonResponse
from django.urls import reverse
from django.utils.cache import patch_cache_control

from teardowns.services.search_suggestions import suggestions

FRESH = 60                  # s: what goes out of sight is not offered for longer
LONGEST = 100


def search_suggestions(request):
    typed = " ".join(request.GET.get("q", "")[:LONGEST].split())
    browse = reverse("unit_list")
    answer = JsonResponse({"suggestions": [
        {"text": one.text, "address": f"{browse}?{urlencode({'q': one.text})}"}
        for one in suggestions(typed)]})
    patch_cache_control(answer, public=True, max_age=FRESH)
    return answer
