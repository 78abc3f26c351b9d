"""The list as a table for other programs: every unit that its address finds, streamed."""
from django.http import StreamingHttpResponse
from django.shortcuts import render

from core.buckets import HOUR, limited
from teardowns.filters import list_query
from teardowns.licence import MEASUREMENTS, NAMES, WORKS
from teardowns.models import ListedUnit
from teardowns.presenting.list_table import COLUMNS, SOURCES, table_lines
from teardowns.services.find_units import ALL, find_units

LICENCE = f"{MEASUREMENTS} AND {WORKS}"          # the latter of titles alone
ROWS = 1000              # a query


@limited("unit_list_csv", account=(60, HOUR), network=(60, HOUR), methods=("GET",))
def unit_list_csv(request):
    asked = list_query(request.META["QUERY_STRING"])
    found = find_units(asked.text, asked.choices, sort=asked.sort, size=ALL).found
    return StreamingHttpResponse(
        table_lines(_rows(found.pks), LICENCE),
        content_type="text/csv; charset=utf-8; header=present",
        headers={"Content-Disposition": 'attachment; filename="units.csv"'})


def _rows(pks):
    """In their order; what is not listed any more by then is left out."""
    for first in range(0, len(pks), ROWS):
        some = pks[first:first + ROWS]
        found = ListedUnit.objects.listed().filter(pk__in=some).values_list(*SOURCES)
        rows = {row[0]: row for row in found}
        yield from (rows[pk] for pk in some if pk in rows)


def unit_list_columns(request):
    return render(request, "teardowns/unit_list_columns.html", {
        "columns": COLUMNS, "licences": [(name, NAMES[name]) for name in (MEASUREMENTS, WORKS)]})
