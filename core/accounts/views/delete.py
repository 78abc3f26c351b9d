"""The end of an account, by its owner."""
from allauth.account.decorators import reauthentication_required
from django.contrib import messages
from django.contrib.auth import logout
from django.shortcuts import redirect, render

from core.accounts.forms import DeleteForm
from core.accounts.services.delete_account import NotNow, delete_account

GONE = "Your account is gone. What you published stays, under “a former contributor”."


@reauthentication_required(app="allauth.account")
def account_delete(request):
    form = DeleteForm(request.POST or None, owner=request.user)
    if form.is_valid():
        try:
            delete_account(person=request.user)
        except NotNow as error:
            form.add_error(None, str(error))
        else:
            logout(request)
            messages.success(request, GONE)
            return redirect("front_page")
    return render(request, "core/account_delete.html", {"form": form})
