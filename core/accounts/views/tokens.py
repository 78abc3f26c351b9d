"""One's own API tokens: make, see, revoke."""
from allauth.account.decorators import reauthentication_required
from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.debug import sensitive_variables

from core.accounts.forms import TokenForm
from core.accounts.models import Scope
from core.accounts.services.api_tokens import NotIssued, issue_token, revoke_token
from core.policy import require_standing


@reauthentication_required(app="allauth.account", allow_get=True)
def account_tokens(request):
    if "revoke" in request.POST:
        return _revoke(request)
    form = TokenForm(request.POST or None)
    if form.is_valid():
        made = _issue(request, form)
        if made:
            return made
    return _page(request, form)


@sensitive_variables("secret")
def _issue(request, form):
    """The page with the new secret, which is printed in this one answer and never again."""
    require_standing(request.user)
    try:
        token, secret = issue_token(owner=request.user, **form.cleaned_data)
    except NotIssued as error:
        form.add_error(None, str(error))
        return None
    return _page(request, TokenForm(), new=token, secret=secret)


def _revoke(request):
    pk = request.POST["revoke"]
    if pk.isdecimal() and revoke_token(owner=request.user, token_pk=int(pk)):
        messages.success(request, "The token is revoked. Nothing can be done with it any more.")
    return redirect("account_tokens")


def _page(request, form, **more):
    tokens = [
        {"token": token, "may": ", ".join(Scope(scope).label.lower() for scope in token.scopes)}
        for token in request.user.api_tokens.all()]
    return render(request, "core/account_tokens.html", {"form": form, "tokens": tokens, **more})
