"""Which language the site speaks to a reader."""
from django.conf import settings
from django.contrib.auth import get_user_model
from django.shortcuts import redirect, render
from django.urls import Resolver404, resolve
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from .forms import LanguageForm

YEAR = 365 * 86400


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def language(request):
    came_from = _own_address(request.POST.get("from", request.GET.get("from", "")))
    form = LanguageForm(request.POST or None, initial={"language": request.LANGUAGE_CODE})
    if not form.is_valid():
        return render(request, "core/language.html", {"form": form, "came_from": came_from})
    chosen = form.cleaned_data["language"]
    if request.user.is_authenticated:
        get_user_model().objects.filter(pk=request.user.pk).update(language=chosen)
    answer = redirect(came_from)
    answer.set_cookie(settings.LANGUAGE_COOKIE_NAME, chosen, max_age=YEAR,
                      secure=settings.LANGUAGE_COOKIE_SECURE, httponly=True, samesite="Lax")
    return answer


def _own_address(path):
    """The page that the reader came from, if it is one of ours; else the front page."""
    try:
        resolve(path.partition("?")[0])
    except Resolver404:
        return "/"
    return path if url_has_allowed_host_and_scheme(path, allowed_hosts=None) else "/"
