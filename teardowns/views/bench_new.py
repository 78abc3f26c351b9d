"""Start a bench sheet: what the unit is called, then the first section."""
import uuid

from django.http import Http404
from django.shortcuts import redirect, render

from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.sections import SECTIONS
from teardowns.forms.unit_form import UnitForm
from teardowns.models import Unit
from teardowns.services.start_unit import start_unit
from teardowns.workflow import NotNow

NAMES = ("title", "kind")


def bench_new(request):
    form = UnitForm(request.POST if request.method == "POST" else None, names=NAMES)
    if form.is_bound and form.is_valid():
        try:
            unit = start_unit(request.user, _uid(request.POST.get("uid", "")), form.values())
        except Unit.DoesNotExist as error:
            raise Http404("No such bench sheet.") from error
        except NotNow as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("bench_section", unit.pk, SECTIONS[0].slug)
    return render(request, "teardowns/bench_new.html", {
        "form": form, "uid": request.POST.get("uid") or uuid.uuid4(), "deferral": DEFERRAL,
    })


def _uid(text):
    """The page's own uid, so that a resend opens no second sheet."""
    try:
        return uuid.UUID(text)
    except ValueError:
        return uuid.uuid4()
