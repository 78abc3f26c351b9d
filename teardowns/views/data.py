"""Everything public as data: the bulk file, its tables, and the bag of one record."""
from base64 import b64encode

from django.core.files.storage import storages
from django.http import FileResponse, Http404, StreamingHttpResponse
from django.shortcuts import render
from django.utils.cache import patch_cache_control

from core.buckets import HOUR, limited
from teardowns import access, licence
from teardowns.bulk.tables import TABLES
from teardowns.models import Publication
from teardowns.presenting.data_sheet import export_lines
from teardowns.presenting.licence_lines import licence_header
from teardowns.services.bag_unit import bag_name, bag_of
from teardowns.services.export_data import offered_export

BLOCK = 1 << 16


def data(request):
    export = offered_export()
    return render(request, "teardowns/data.html", {
        "export": export, "lines": export_lines(export) if export else (), "tables": TABLES,
        "terms": [(licence.NAMES[name], licence.ADDRESSES[name])
                  for name in (licence.MEASUREMENTS, licence.WORKS)]})


@limited("data", network=(30, HOUR))
def data_package(request, name):
    """The newest file; any other name is gone."""
    export = offered_export()
    if export is None or export.name != name:
        raise Http404("No such file: the page “Data” names the one that stands.")
    try:
        file = storages["exports"].open(export.path)
    except FileNotFoundError as error:
        raise Http404("The file is missing; the next one is made after the next change.") from error
    answer = FileResponse(file, as_attachment=True, filename=export.path,
                          content_type="application/zip")
    answer["Link"] = licence_header()
    digest = b64encode(bytes.fromhex(export.sha256)).decode()
    answer["Repr-Digest"] = f"sha-256=:{digest}:"          # RFC 9530
    patch_cache_control(answer, public=True, max_age=600)
    return answer


@limited("bag", network=(30, HOUR))
def unit_bag(request, pk):
    """The version that stands, as a bag."""
    unit = access.public_unit(pk)
    publication = Publication.objects.select_related("standing").get(pk=unit.publication_id)
    publication.unit = unit
    answer = StreamingHttpResponse(_blocks(publication), content_type="application/zip")
    answer["Content-Disposition"] = f'attachment; filename="{bag_name(publication)}.zip"'
    answer["Link"] = licence_header()
    return answer


def _blocks(publication):
    with bag_of(publication) as file:
        while block := file.read(BLOCK):
            yield block
