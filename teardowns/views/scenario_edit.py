"""A moderator changes how likely the steps of one scenario are: a new set, not in force yet."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse

from teardowns.engine.risk import ILLUSTRATION
from teardowns.presenting.scenario_sheet import scenario_sheets
from teardowns.services.edit_scenarios import ScenarioError, edit_scenario

from .scenario_list import chosen_scenarios


def scenario_edit(request, scenario):
    base = chosen_scenarios(request)
    sheet = next((one for one in scenario_sheets(base.scenarios) if one["id"] == scenario), None)
    if sheet is None:
        raise Http404("There is no such scenario.")
    typed, errors = {step["key"]: step["p"] for step in sheet["steps"]}, {}
    if request.method == "POST":
        typed = {key: request.POST.get(f"p-{key}", "")[:40] for key in typed}
        reason = request.POST.get("reason", "")[:2000]
        try:
            made = edit_scenario(request.user, base, scenario, typed, reason)
        except ScenarioError as error:
            errors = error.errors
        else:
            messages.success(request, f"Kept as {made}. It counts for nothing before it is put in "
                                      "force, here below.")
            return redirect(f"{reverse('scenario_list')}?set={made.number}")
    return render(request, "teardowns/scenario_edit.html", {
        "sheet": sheet, "base": base, "errors": list(errors.items()),
        "reason": request.POST.get("reason", ""), "reason_error": errors.get("reason"),
        "steps": [step | {"typed": typed[step["key"]], "error": errors.get(step["key"])}
                  for step in sheet["steps"]],
        "illustration": ILLUSTRATION,
    })
