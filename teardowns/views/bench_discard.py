"""Put a bench sheet out of sight, or drop a correction; nothing of it is deleted."""
from django.contrib import messages
from django.shortcuts import redirect, render

from core.once import once
from teardowns import access
from teardowns.services.discard_unit import discard_unit
from teardowns.services.drop_correction import drop_correction
from teardowns.workflow import NotNow

MOST = 300


@once
def bench_discard(request, pk):
    unit = access.unit_to_change(request.user, pk)
    correction = unit.work.correction
    reason = request.POST.get("reason", "").strip()[:MOST]
    refusal = ""
    if request.method == "POST":
        discard = drop_correction if correction else discard_unit
        try:
            discard(author=request.user, unit_pk=pk, reason=reason)
        except NotNow as error:
            refusal = str(error)
        else:
            messages.success(request, "Your correction is dropped; the record stays as it is."
                             if correction else f"“{unit.title}” is discarded.")
            return redirect("bench_list")
    return render(request, "teardowns/bench_discard.html", {
        "unit": unit, "correction": correction, "refusal": refusal, "reason": reason,
    })
