"""Keep the index of the whole listing as bytes, so that a process need not read every row."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from django.db import transaction

from teardowns.browsing.facets import Facet
from teardowns.browsing.index import Index
from teardowns.browsing.packing import form_of, pack_index, unpack_index
from teardowns.models import ListingPack

from . import facets
from .listing_clock import Mark, belongs_to, current_mark


class Packs:
    """Of indexes with these facets and orders."""

    def __init__(self, of: Mapping[str, Facet], columns: Mapping[str, str], reader: str):
        """reader : file of the code that makes an index of rows"""
        self._facets, self._columns = of, columns
        sources = (Path(facets.__file__), Path(reader))
        self.form = form_of(of.values(), columns, *sources)

    def kept(self) -> tuple[Mark, Index] | None:
        """The one that is kept, with the state it stands for; None where none can be followed."""
        row = ListingPack.objects.filter(pk=1, form=self.form).first()
        if row is None or not belongs_to(mark := Mark(row.number, row.stamp)):
            return None
        return mark, unpack_index(row.packed, self._facets.values(), self._columns)

    def keep(self, now: Callable[[], Index]) -> bool:
        """Whether there was anything new. now : the whole index"""
        # The mark is read first: rows that change meanwhile are read once more by who follows.
        mark = current_mark()
        as_it_is = {"form": self.form, "number": mark.number, "stamp": mark.stamp}
        if mark.is_beginning or ListingPack.objects.filter(pk=1, **as_it_is).exists():
            return False
        packed = pack_index(now())
        with transaction.atomic():
            ListingPack.objects.update_or_create(pk=1, defaults=as_it_is | {"packed": packed})
        return True
