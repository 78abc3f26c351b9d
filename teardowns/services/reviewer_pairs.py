"""How often each reviewer has reviewed each contributor's work."""
from __future__ import annotations

from collections.abc import Iterable

from django.db.models import Count
from django.db.models.functions import Coalesce

from teardowns.models import Review, ReviewEnding


def reviewer_pairs(author_pks: Iterable[int]) -> dict[int, dict[int, int]]:
    """By author and reviewer, the reviews that were closed with everything decided; one query."""
    found: dict[int, dict[int, int]] = {}
    done = Review.objects.filter(ending=ReviewEnding.DONE).annotate(
        author=Coalesce("correction__author_id", "unit__contributor_id"))
    counted = done.filter(author__in=list(author_pks)).order_by().values_list(
        "author", "reviewer").annotate(n=Count("pk"))
    for author, reviewer, n in counted:
        found.setdefault(author, {})[reviewer] = n
    return found
