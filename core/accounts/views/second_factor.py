"""The page between a trusted person and a page that takes a second factor."""
from allauth.mfa.models import Authenticator
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme, urlencode

from core.accounts.models import TRUSTED
from core.accounts.second_factor import NEXT


def second_factor(request):
    """What to do: set one up, or show it now. Whoever has done so is led on."""
    going = _remember_where(request)
    if request.user.role not in TRUSTED or request.user.acts_in_role:
        return redirect(request.session.pop(NEXT, None) or "account")
    kinds = set(Authenticator.objects.filter(user=request.user).values_list("type", flat=True))
    back = urlencode({"next": reverse("second_factor")})
    return render(request, "core/second_factor.html", {
        "going": going, "back": back,
        "by_code": Authenticator.Type.TOTP in kinds,
        "by_key": Authenticator.Type.WEBAUTHN in kinds,
    })


def _remember_where(request):
    """Kept in the session, since setting one up leads over several pages."""
    asked = request.GET.get("next", "")
    if url_has_allowed_host_and_scheme(asked, {request.get_host()}, request.is_secure()):
        request.session[NEXT] = asked
    return request.session.get(NEXT)
