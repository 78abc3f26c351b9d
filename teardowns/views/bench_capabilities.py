"""What a port told a protocol analyser: pasted, read, shown, kept."""
import logging

from django.contrib import messages
from django.shortcuts import redirect, render

from core.whole_number import whole_number
from teardowns.access import unit_to_change
from teardowns.forms.capabilities_form import CapabilitiesForm
from teardowns.forms.cautions import DEFERRAL
from teardowns.presenting.capabilities_shown import capabilities_shown, shown_orders
from teardowns.services.cite_part import SaveRefused
from teardowns.services.keep_capabilities import advertised_by_modes, keep_capabilities
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.receive_recording import RecordingRefused
from teardowns.services.save_section import StaleRows

logger = logging.getLogger(__name__)
CHANGED = "The port was changed elsewhere since this page was drawn. Look at what it says now, " \
          "then keep the list again."
OTHER = "The list is another one than that which you looked at. Look at how it is read now, then " \
        "keep it."


def bench_capabilities(request, pk):
    unit = unit_to_change(request.user, pk)
    ports = list(unit.ports.order_by("pk"))
    choices = [(port.key, port.label) for port in ports]
    if request.method == "GET":
        return _page(request, unit, ports, CapabilitiesForm(ports=choices))
    form = CapabilitiesForm(request.POST, request.FILES, ports=choices)
    if form.is_valid() and request.POST.get("act") == "keep" and not form.asks_for_order:
        port = next(one for one in ports if one.key == form.cleaned_data["port"])
        if request.POST.get("shown") != form.digest:
            form.add_error(None, OTHER)
        elif _kept(request, unit, port, form):
            return redirect("bench_recordings", pk)
    return _page(request, unit, ports, form)


def _kept(request, unit, port, form):
    said = form.cleaned_data
    try:
        saved = keep_capabilities(
            contributor=request.user, unit_pk=unit.pk, port=port.key, text=said["text"],
            version=whole_number(request.POST.get(f"seen-{port.key}", "")) or 0, found=form.found,
            instrument=said["instrument"])
    except StaleRows:
        form.add_error(None, CHANGED)
    except (RecordingRefused, SaveRefused) as refusal:
        form.add_error(None, refusal.message)
    except OSError:
        logger.exception("a list of unit %s could not be stored", unit.pk)
        form.add_error(None, NOT_STORED)
    else:
        later = "" if saved.assessed else " The verdict could not be worked out again; it is kept."
        counts = form.found.words or advertised_by_modes(form.found.modes)
        said = f"What port {port.label} advertises is kept." if counts else \
            "The list is kept; nothing in it counts as advertised."
        messages.success(request, said + later)
        return True
    return False


def _page(request, unit, ports, form):
    found = form.found
    return render(request, "teardowns/bench_capabilities.html", {
        "unit": unit, "form": form, "ports": ports, "deferral": DEFERRAL,
        "shown": found and capabilities_shown(found), "asks": form.asks_for_order,
        "orders": shown_orders(form.orders), "digest": form.digest if found else "",
        "text": form.kept_text,
    })
