"""The whole record of one unit as a file."""
from django.http import HttpResponse

from teardowns.exchange.document import write_document
from teardowns.presenting.licence_lines import licence_header, licences_exported
from teardowns.presenting.replies_shown import replies_exported
from teardowns.services.shown_unit import shown_unit


def unit_document(request, pk):
    shown = shown_unit(request.user, pk, request.GET.get("version", ""))
    document = {**shown.document, "replies": replies_exported(shown.live),
                "licences": licences_exported(shown.live)}
    response = HttpResponse(write_document(document), content_type="application/json")
    response["Link"] = licence_header()
    name = f"underplate-unit-{pk}{_version(shown)}.json"
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    return response


def _version(shown):
    return f"-v{shown.publication.number}" if shown.publication else ""
