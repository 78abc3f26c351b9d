"""A copy of all that the site holds of oneself."""
from allauth.account.decorators import reauthentication_required
from django.core.serializers.json import DjangoJSONEncoder
from django.http import JsonResponse
from django.shortcuts import render

from core.accounts.services.export_account import export_account


@reauthentication_required(app="allauth.account", allow_get=True)
def account_export(request):
    if request.method != "POST":
        return render(request, "core/account_export.html")
    document = export_account(person=request.user)
    response = JsonResponse(document, encoder=DjangoJSONEncoder, json_dumps_params={"indent": 1})
    response["Content-Disposition"] = 'attachment; filename="underplate-account.json"'
    return response
