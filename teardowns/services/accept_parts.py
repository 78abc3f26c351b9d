"""Parts become entries of the library that everybody sees."""
from __future__ import annotations

from django.utils import timezone

from core.accounts.models import User
from teardowns.models import Part, Unit

from .index_words import index_parts
from .proposals import save_by

WITH_UNIT = "published with a unit that contains it"


def accept_cited_parts(unit: Unit, moderator: User) -> None:
    """With a unit the parts that it cites become public; from now on they change by proposal."""
    cited = Part.objects.select_for_update().filter(
        pk__in=unit.components.values("part"), accepted_at=None)
    for part in cited:
        accept(part, moderator, WITH_UNIT)


def accept(part: Part, moderator: User, because: str) -> Part:
    """The part as it stands, saved, listed and found by a search."""
    part.accepted_at = part.accepted_at or timezone.now()
    part.version += 1
    save_by(part, moderator, because)
    index_parts([part.pk])
    return part
