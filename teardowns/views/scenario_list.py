"""A set of scenarios: steps, who set them and why, what it changes, and the history of the sets."""
from functools import partial

from django.contrib import messages
from django.db import transaction
from django.http import Http404
from django.shortcuts import redirect, render
from django_q.tasks import async_task

from core.accounts.models import Role
from core.audit.models import Entry
from core.whole_number import whole_number
from teardowns.engine.risk import BESIDE, ILLUSTRATION, SOURCE
from teardowns.models import ScenarioSet
from teardowns.presenting.scenario_sheet import changes, scenario_sheets
from teardowns.services.edit_scenarios import (
    PUT_IN_FORCE,
    ScenarioError,
    numbered_scenarios,
    put_in_force,
    scenarios_in_force,
)

SHOWN = 50               # sets and events of the history


def scenario_list(request):
    current = scenarios_in_force()
    shown = chosen_scenarios(request, current)
    error = ""
    if request.method == "POST":
        error = _put_in_force(request, shown)
        if not error:
            return redirect("scenario_list")
    sets = ScenarioSet.objects.defer("scenarios").select_related("author")
    events = Entry.objects.filter(action=PUT_IN_FORCE).select_related("actor")
    return render(request, "teardowns/scenario_list.html", {
        "shown": shown, "current": current, "is_current": shown.number == current.number,
        "scenarios": scenario_sheets(shown.scenarios),
        "changes": changes(current.scenarios, shown.scenarios),
        "sets": sets[:SHOWN], "events": events[:SHOWN],
        "may_edit": request.user.is_authenticated and request.user.has_role(Role.MODERATOR),
        "error": error, "reason": request.POST.get("reason", ""),
        "beside": BESIDE, "illustration": ILLUSTRATION, "source": SOURCE,
    })


def chosen_scenarios(request, current=None):
    """The set that `?set=` names, or the one in force; 404 where there is none of that number."""
    asked = request.GET.get("set")
    if asked is None:
        return current or scenarios_in_force()
    number = whole_number(asked)
    found = None if number is None else numbered_scenarios(number)
    if found is None:
        raise Http404("There is no such set of scenarios.")
    return found


def _put_in_force(request, shown):
    """What is wrong with it, or "" when it is done and every unit is queued to be assessed anew."""
    try:
        put_in_force(request.user, shown, request.POST.get("reason", "")[:2000],
                     request.POST.get("instead_of", ""))
    except ScenarioError as error:
        return str(error)
    transaction.on_commit(partial(async_task, "teardowns.jobs.reassess_all"))
    messages.success(request, f"Now in force: {shown.name}. Every unit is assessed anew with it in "
                              "the background; until then a record names the rulebook before.")
    return ""
