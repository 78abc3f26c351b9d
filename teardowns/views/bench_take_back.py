"""Take back what was handed in."""
from django.contrib import messages
from django.shortcuts import redirect

from core.once import once
from teardowns.services.take_back_unit import take_back_unit
from teardowns.workflow import NotNow


@once
def bench_take_back(request, pk):
    try:
        unit = take_back_unit(author=request.user, unit_pk=pk)
    except NotNow as error:
        messages.warning(request, str(error))
    else:
        messages.success(request, f"“{unit.title}” is yours again: change it, then hand it in.")
    return redirect("bench_submit", pk)
