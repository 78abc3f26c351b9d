"""What tells one record on paper from another: everything that goes into it, in one digest."""
from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import cache
from hashlib import sha256
from typing import Any

from django.conf import settings
from django.db.models import Count, Max

from core.words.said import mo_file
from teardowns.models import (
    ContributionLicence,
    PhotoDerivative,
    Publication,
    Reply,
    ReviewDecision,
)
from teardowns.models.moderation import HiddenKind, hidden_now

from .public_versions import shown_assessments

# Whatever writes a line of it: another one makes another document.
SOURCES = ("teardowns/typesetting/*.*", "teardowns/printouts/*.py", "teardowns/presenting/*.py",
           "teardowns/figures/*.py", "teardowns/engine/*.py", "teardowns/reading/printing.py",
           "teardowns/writing/*.py", "teardowns/licence.py", "templates/teardowns/_*.html",
           "templates/teardowns/printed_*.html", "static/css/*.css")


def printout_digest(versions: Sequence[Publication], fonts: Iterable[str], language: str = "en"
                    ) -> str:
    """Hexadecimal. versions : of `public_versions`; asks four queries, however many they are"""
    units = [one.unit_id for one in versions]
    beside = [_replies(units), _decisions(units), _pictures(units), _licences(units)]
    told = [[_of_version(one), *(each[one.unit_id] for each in beside)] for one in versions]
    whole = [sources_digest(), sorted(fonts), settings.SITE_URL, told, words_digest(language)]
    return sha256(json.dumps(whole, sort_keys=True).encode()).hexdigest()


@cache
def sources_digest() -> str:
    root, found = settings.BASE_DIR, sha256()
    for pattern in SOURCES:
        for path in sorted(root.glob(pattern)):
            if path.is_file():
                found.update(path.read_bytes())
    return found.hexdigest()


@cache
def words_digest(language: str) -> str:
    """Of the language that a document is in: another translation makes another document."""
    if language == "en":
        return language
    return f"{language}/{sha256(mo_file(language).read_bytes()).hexdigest()}"


def _of_version(publication):
    assessments = [[one.rulebook, one.evidence_digest, one.created_at.isoformat()]
                   for one in shown_assessments(publication)]
    unit = publication.unit
    return [str(unit.uid), publication.number, publication.pk == unit.publication_id,
            unit.contributor.get_username(), assessments]


def _replies(units) -> dict[int, Any]:
    found = defaultdict(list)
    for reply in Reply.objects.shown().filter(unit__in=units):
        found[reply.unit_id].append([reply.pk, reply.now_number, reply.now_answer])
    return found


def _decisions(units) -> dict[int, Any]:
    """How many there are: they decide whether a finding is a headline, and none is ever altered."""
    rows = ReviewDecision.objects.filter(review__unit__in=units).values_list(
        "review__unit").annotate(Count("pk"), Max("pk"))
    return defaultdict(list, {unit: [count, last] for unit, count, last in rows})


def _pictures(units) -> dict[int, Any]:
    """A photo that is covered, taken down or hidden for now changes what may be printed."""
    found = defaultdict(list)
    rows = PhotoDerivative.objects.filter(
        photo__unit__in=units, photo__taken_down_at=None).exclude(
        hidden_now(HiddenKind.PHOTO, "photo_id")).order_by("pk")
    for unit, path in rows.values_list("photo__unit", "path"):
        found[unit].append(path)
    return found


def _licences(units) -> dict[int, Any]:
    found = defaultdict(list)
    rows = ContributionLicence.objects.filter(unit__in=units).order_by("pk")
    for unit, pk in rows.values_list("unit", "pk"):
        found[unit].append(pk)
    return found
