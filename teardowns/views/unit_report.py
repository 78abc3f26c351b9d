"""A record as a PDF: asked for, made by the worker, fetched."""
from django.http import FileResponse, Http404, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.cache import patch_cache_control, patch_vary_headers
from django.utils.translation import get_language

from core.buckets import HOUR, limited
from core.whole_number import whole_number
from core.words.said import said
from teardowns.models import Printout, PrintoutState
from teardowns.printouts.key import printout_key
from teardowns.printouts.make import STEPS
from teardowns.services.ask_printout import ask_printout, seems_stuck, waits_long
from teardowns.services.keep_printouts import open_printout
from teardowns.services.public_versions import public_versions

ACCOUNT, NETWORK, SITE = (60, HOUR), (30, HOUR), (600, HOUR)
FRESH = 300              # seconds; what is withdrawn has to go from every cache soon


@limited("printouts", account=ACCOUNT, network=NETWORK, site=SITE)
def unit_report(request, pk):
    """The page that makes a record's PDF, shows how far it is, and hands it out."""
    version = asked_version(request)
    versions = public_versions([(pk, version)])
    if not versions:
        raise Http404("No such unit.")
    publication, = versions
    address = reverse("unit_report", args=[pk]) + _query(version)
    return printout_page(request, versions, address, {
        "unit": publication.unit, "publication": publication,
        "file": reverse("unit_report_file", args=[pk]) + _query(version)},
        "teardowns/unit_report.html")


def unit_report_file(request, pk):
    version = asked_version(request)
    return printout_file(public_versions([(pk, version)]),
                         f"underplate-unit-{pk}-version-{{number}}.pdf")


def asked_version(request):
    """Number of the version asked for, None for what stands. Raises Http404."""
    asked = request.GET.get("version", "")
    if not asked:
        return None
    number = whole_number(asked, 6)
    if number is None:
        raise Http404("No such version.")
    return number


def _query(version):
    return f"?version={version}" if version else ""


def printout_page(request, versions, address, context, template):
    """POST asks for it; GET says where it stands, as a page or, to a script, as JSON."""
    language = get_language() or "en"
    digest = printout_key(versions, language)
    if request.method == "POST":
        ask_printout(digest=digest, versions=versions, language=language)
        return redirect(address)
    printout = Printout.objects.filter(digest=digest).first()
    if request.headers.get("Accept") == "application/json":
        answer = JsonResponse(_state(printout))
    else:
        answer = render(request, template, context | _shown(printout) | {"address": address})
    patch_vary_headers(answer, ["Accept"])
    patch_cache_control(answer, no_store=True)
    return answer


def _state(printout):
    """For the script, which shows the step and loads the page again once it ends."""
    if printout is None:
        return {"state": "none", "step": 0, "words": ""}
    return {"state": printout.state, "step": printout.step, "words": said(STEPS[printout.step])}


def _shown(printout):
    if printout is None:
        return {"state": "none"}
    state = PrintoutState(printout.state)
    return {
        "printout": printout, "state": "stuck" if seems_stuck(printout) else state.value,
        "steps": [(words, place < printout.step, place == printout.step)
                  for place, words in enumerate(STEPS)],
        "waits_long": waits_long(printout),
        "size": f"{printout.byte_size / 1e6:.1f}\u202fMB",
    }


def printout_file(versions, name):
    """The PDF of these versions as they stand now, or 404: then its page makes it."""
    language = get_language() or "en"
    file = open_printout(printout_key(versions, language)) if versions else None
    if file is None:
        raise Http404("This document is not made, or the record has changed since: ask for it "
                      "on its page.")
    name = name.format(number=versions[0].number)
    answer = FileResponse(file, as_attachment=True, filename=name, content_type="application/pdf")
    patch_cache_control(answer, public=True, max_age=FRESH)
    patch_vary_headers(answer, ["Accept-Language", "Cookie"])
    return answer
