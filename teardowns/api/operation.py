"""How an operation of the API is declared: its address, what it takes and gives, how it can end.

The view works only with what is its own; limits, unknown parameters, validators and keys are the
same for all of them and stand here.
"""
from collections.abc import Callable
from functools import wraps
from typing import Any

from django.http import HttpResponse
from django.http.response import HttpResponseBase
from ninja import NinjaAPI
from ninja.decorators import decorate_view

from core.once import FORMS
from core.problems import problem
from teardowns.api.answers import Answer, kept, written
from teardowns.api.faults import FAULTY, StrictParser, add_faults, not_json
from teardowns.api.idempotency import once
from teardowns.api.limits import Allowance
from teardowns.api.schemas.problems import Problem
from teardowns.services.facets import FACETS
from teardowns.views.kept_pages import State

TITLE, VERSION = "Underplate", "1.0.0"
NO_SUCH_PARAMETER = "There is no such parameter here: leave it out, or check its spelling."
TWICE = "It stands here more than once: write it once."
NUL = "It contains the character NUL: remove it."
api = NinjaAPI(title=TITLE, version=VERSION, openapi_url=None, docs_url=None,
               parser=StrictParser(), urls_namespace="api")
add_faults(api)


def reads(path: str, name: str, tag: str, gives: Any, *, ends: tuple[int, ...] = (404,),
          takes: tuple[str, ...] = (), media_type: str = "", private: bool = False,
          made_of: Callable[..., State | None] | None = None) -> Callable:
    """Declare what is read at an address.

    gives : the schema; takes : names of its parameters; ends : statuses of its problems
    media_type : where it is not JSON; private : whether it takes a token
    made_of : of the parameters, what everybody's answer is made of, where it is kept
    """
    def declare(view):
        @wraps(view)
        def answered(request, **given):
            if made_of is None:
                return _written(request, view, given)
            return kept(request, made_of(**given), lambda: _answer(view(request, **given)))
        statuses = {*ends, 422, 429} | ({401, 403} if private else set())
        return _declared("get", path, name, tag, answered, {200: gives, 304: None}, statuses, takes,
                         x_media_type=media_type, x_private=private)
    return declare


def writes(method: str, path: str, name: str, tag: str, gives: Any, *, status: int = 200,
           ends: tuple[int, ...] = (404, 409), takes: tuple[str, ...] = (), keyed: bool = True,
           body: dict | None = None) -> Callable:
    """Declare what is done at an address, with a token.

    keyed : whether it takes JSON, and a POST is done once under its Idempotency-Key here; else the
        view sees to both
    body : the request body, where it is described by hand
    """
    def declare(view):
        @wraps(view)
        def answered(request, **given):
            if request.content_type in FORMS and keyed:
                return not_json()
            if method == "post" and keyed:
                return once(request, lambda: _written(request, view, given))
            return _written(request, view, given)
        statuses = {400, 401, 403, 413, 415, 422, 429, *ends}
        return _declared(method, path, name, tag, answered, {status: gives}, statuses, takes,
                         x_private=True, x_body=body, x_keyed=method == "post")
    return declare


def _declared(method, path, name, tag, answered, gives, statuses, takes, **extra):
    extra = {each.replace("_", "-"): value for each, value in extra.items() if value}
    # ninja makes a class of each status, three hundred in all: a fifth of a second at each start.
    extra["x-ends"] = sorted(statuses - {429})
    declare = getattr(api, method)
    answered = decorate_view(_around(method != "get", takes))(answered)
    return declare(path, url_name=name, tags=[tag], response={**gives, 429: Problem},
        operation_id=answered.__name__, openapi_extra=extra)(answered)


def _around(writes, takes):
    """What is done before the parameters are looked at, and with every answer."""
    def around(run):
        @wraps(run)
        def counted(request, **given):
            allowance = Allowance(request, writes)
            return allowance.taken() or allowance.told(
                _unknown(request, takes) or run(request, **given))
        return counted
    return around


def _unknown(request, takes):
    """Parameters that nobody reads are misspelt ones, and would be missed in silence."""
    errors = [{"detail": NO_SUCH_PARAMETER, "parameter": name[:100]}
              for name in request.GET if name not in takes][:20]
    errors += [{"detail": TWICE, "parameter": name} for name in takes
               if name not in FACETS and len(request.GET.getlist(name)) > 1]
    errors += [{"detail": NUL, "parameter": name} for name in takes
               if any("\0" in text for text in request.GET.getlist(name))]
    return problem(422, FAULTY, errors=errors) if errors else None


def _written(request, view, given) -> HttpResponse:
    answer = view(request, **given)
    if isinstance(answer, HttpResponseBase):
        return answer
    return written(request, _answer(answer))


def _answer(given):
    return given if isinstance(given, Answer) else Answer(given)
