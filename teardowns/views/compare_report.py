"""Two to six units side by side as a PDF."""
from urllib.parse import urlencode

from django.http import Http404
from django.urls import reverse

from core.buckets import limited
from teardowns.forms.chosen_units import LEAST, MOST, Chosen, read_choice, written
from teardowns.services.public_versions import public_versions
from teardowns.services.units_to_compare import units_there
from teardowns.views.unit_report import ACCOUNT, NETWORK, SITE, printout_file, printout_page


@limited("printouts", account=ACCOUNT, network=NETWORK, site=SITE)
def compare_report(request):
    versions = _versions(request)
    asked = _asked(versions)
    return printout_page(request, versions, reverse("compare_report") + asked, {
        "versions": versions, "back": reverse("compare") + asked,
        "file": reverse("compare_report_file") + asked}, "teardowns/compare_report.html")


def compare_report_file(request):
    versions = _versions(request)
    units = "-".join(str(one.unit_id) for one in versions)
    return printout_file(versions, f"underplate-units-{units}.pdf")


def _versions(request):
    """Of `?units=3,8v2,12` what is public of it, at least two."""
    chosen = read_choice(request.GET.getlist("units"), units_there).units
    versions = public_versions(
        [(one.pk, int(one.version) if one.version else None) for one in chosen])
    if not LEAST <= len(versions) <= MOST:
        raise Http404("A comparison takes two to six public records.")
    return versions


def _asked(versions):
    """The query, the same for all who ask for the same; one that stands has no number."""
    chosen = [Chosen(one.unit_id, "" if one.pk == one.unit.publication_id else str(one.number))
              for one in versions]
    return f"?{urlencode({'units': written(chosen)}, safe=',')}"
