"""Write everything public as one file, in slices that any worker can go on with.

Each slice is kept as CSV text in the storage; the last step makes the tables of them. An export is
offered until a record that is in it goes out of public sight: then not before the next is made.
"""
from __future__ import annotations

import tempfile
from collections.abc import Iterable
from datetime import timedelta
from hashlib import file_digest

from django.conf import settings
from django.core.files.base import ContentFile, File
from django.core.files.storage import storages
from django.utils import timezone

from teardowns.bulk.csv_text import lines
from teardowns.bulk.package import About, write_package
from teardowns.bulk.tables import TABLES, Table
from teardowns.models import DataExport, ListedUnit, Publication

from .active_rulebook import active_rulebook
from .listing_clock import current_mark
from .public_records import public_records

SLICE = 200
GIVEN_UP = timedelta(hours=6)        # an export begun longer ago is begun anew
KEPT = 2                             # files: who is reading the one before finishes


def begin_export() -> DataExport | None:
    """A new one, the one that is being written, or None where nothing changed since the last."""
    mark, rules = current_mark(), active_rulebook().version
    newest = DataExport.objects.first()
    if newest and newest.made_at is None and newest.began_at > timezone.now() - GIVEN_UP:
        return newest
    if newest and newest.made_at and (newest.number, newest.stamp, newest.rulebook) == (
            mark.number, mark.stamp, rules):
        return None
    return DataExport.objects.create(number=mark.number, stamp=mark.stamp, rulebook=rules,
                                     began_at=timezone.now())


def export_slice(export: DataExport, after: int = 0, size: int = SLICE) -> int | None:
    """Write the units that follow this one; the last of them, or None when it was the last of all.

    Written twice, a slice is the same file again.
    """
    found = list(Publication.objects.current().filter(unit__gt=after).select_related(
        "standing").defer("frozen").order_by("unit_id")[:size])
    records = public_records(found)
    for table in TABLES:
        text = lines(table, (row for record in records for row in table.rows(record)))
        _put(_part(export, table, after), text.encode())
    export.parts = [*(one for one in export.parts if one[0] < after), [after, len(found)]]
    export.units = sum(count for _, count in export.parts)
    export.save(update_fields=["parts", "units"])
    return found[-1].unit_id if len(found) == size else None


def finish_export(export: DataExport) -> DataExport:
    """The one file of all slices; older files go, and the slices too."""
    about = About(
        name=export.name, created=export.began_at.strftime("%Y-%m-%dT%H:%M:%SZ"),
        address=settings.SITE_URL, rulebook=export.rulebook, units=export.units)

    def parts(table: Table) -> Iterable[bytes]:
        for first, _ in export.parts:
            with storages["exports"].open(_part(export, table, first)) as file:
                yield file.read()

    with tempfile.TemporaryFile(dir=_work()) as file:
        write_package(file, about, parts)
        export.byte_size = file.tell()
        file.seek(0)
        export.sha256 = file_digest(file, "sha256").hexdigest()
        file.seek(0)
        storages["exports"].delete(export.path)
        storages["exports"].save(export.path, File(file))
    export.made_at = timezone.now()
    export.save(update_fields=["byte_size", "sha256", "made_at"])
    _drop_parts(export)
    _drop_old(export)
    return export


def offered_export() -> DataExport | None:
    """The newest file, unless a record of it has gone out of sight since."""
    newest = DataExport.objects.filter(made_at__isnull=False).first()
    if newest is None:
        return None
    gone = ListedUnit.objects.filter(is_listed=False, changed__gt=newest.number)
    return None if gone.exists() else newest


def _part(export, table, first):
    return f"parts/{export.pk}/{table.name}-{first}.csv"


def _put(path, content):
    storages["exports"].delete(path)
    storages["exports"].save(path, ContentFile(content))


def _work():
    settings.INCOMING.mkdir(parents=True, exist_ok=True)
    return settings.INCOMING


def _drop_parts(export):
    for first, _ in export.parts:
        for table in TABLES:
            storages["exports"].delete(_part(export, table, first))


def _drop_old(export):
    for old in DataExport.objects.filter(pk__lt=export.pk).order_by("-pk")[KEPT - 1:]:
        _drop_parts(old)
        storages["exports"].delete(old.path)
        old.delete()
