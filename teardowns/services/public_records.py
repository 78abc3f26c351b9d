"""Versions that stand, as records for bulk data: a fixed number of queries for many."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from django.conf import settings

from teardowns.bulk.record import Record
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.models import Publication

from .beside_units import licences_beside, replies_beside


def public_records(publications: Iterable[Publication]) -> list[Record]:
    """publications : with their `standing`; two queries more"""
    publications = list(publications)
    units = [one.unit_id for one in publications]
    licences, replies = licences_beside(units), replies_beside(units)
    return [_record(one, licences[one.unit_id], replies[one.unit_id]) for one in publications]


def _record(publication: Publication, licences: Sequence[Any], replies: Sequence[Any]) -> Record:
    return Record(
        unit=publication.unit_id, version=publication.number,
        published_at=publication.published_at.isoformat(timespec="seconds"),
        address=f"{settings.SITE_URL}{publication.get_absolute_url()}",
        document=full(publication.document, unit_schema()), report=publication.standing.payload,
        licences=licences, replies=replies)
