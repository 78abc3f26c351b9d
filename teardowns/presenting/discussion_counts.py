"""How much is said about each row of a unit's evidence: one query, for numbers beside the rows."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.db.models import Count
from django.urls import reverse
from django.utils.http import urlencode

from teardowns.models import Comment, CommentState, Unit


@dataclass(frozen=True, slots=True)
class Discussed:
    """Of one row: how many comments everybody reads, and where they stand."""

    number: int
    words: str               # "3 comments"
    href: str


def discussion_counts(unit: Unit) -> dict[str, Discussed]:
    """By ref, for every row that has comments; "" is the unit as a whole, all of them together."""
    found = Comment.objects.readable().filter(unit=unit, is_internal=False).order_by().values_list(
        "ref").annotate(number=Count("pk"))
    numbers = dict(found)
    made = {ref: _discussed(unit, number, ref) for ref, number in numbers.items() if ref}
    return made | {"": _discussed(unit, sum(numbers.values()))}


def talk_of(unit: Any, counts: dict[str, Discussed]) -> Callable[[str], tuple[str, str]]:
    """By ref, address and words of the link to the discussion of a row. counts : of the above"""
    address = reverse("unit_discussion", args=[unit.pk])

    def talk(ref):
        if found := counts.get(ref):
            return found.href, found.words
        return f"{address}?{urlencode({'about': ref})}", "Discuss"
    return talk


def _discussed(unit: Any, number: int, ref: str = "") -> Discussed:
    address = reverse("unit_discussion", args=[unit.pk])
    return Discussed(number, in_words(number), f"{address}?{urlencode({'about': ref})}" if ref
                     else address)


def in_words(number: int) -> str:
    return "1 comment" if number == 1 else f"{number} comments"


def author_record(comment: Comment) -> str:
    """What became of the author's other comments: "12 other comments shown, 1 removed"."""
    others = Comment.objects.filter(author=comment.author_id).exclude(pk=comment.pk).order_by()
    numbers = dict(others.values_list("state").annotate(number=Count("pk")))
    if not numbers:
        return "The author has written nothing else."
    told = ", ".join(f"{numbers[state]} {CommentState(state).label}"
                     for state in CommentState.values if state in numbers)
    return f"Other comments of the author: {told}."
