"""The whole record of one unit as a file."""
from django.http import HttpResponse

from teardowns import access
from teardowns.exchange.document import write_document
from teardowns.services.export_unit import unit_document as exported


def unit_document(request, pk):
    unit = access.unit_to_see(request.user, pk)
    response = HttpResponse(write_document(exported(unit)), content_type="application/json")
    response["Content-Disposition"] = f'attachment; filename="underplate-unit-{unit.pk}.json"'
    return response
