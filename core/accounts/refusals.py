"""A refusal as a page for people, and as plain words for programs."""
from django.views.defaults import permission_denied

from core.accounts.bearer import refuse
from core.problems import WORDS, problem, speaks_json


def forbidden(request, exception):
    if speaks_json(request):
        return problem(403, str(exception))
    if getattr(request, "api_token", None) is None:
        return permission_denied(request, exception)
    return refuse(str(exception) or WORDS[403], 403)
