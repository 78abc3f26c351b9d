"""Whether a reviewer has an interest in a unit: by what they declared, and by their own part."""
from __future__ import annotations

from collections.abc import Iterable

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import Affiliation, Unit
from teardowns.reviewing.names import names_meet


def declared_ties(person: User) -> list[Affiliation]:
    """What stands declared today; one query."""
    return list(Affiliation.objects.filter(person=person, ended_at=None).select_related("other"))


def tie_to(unit: Unit, authors: Iterable[int], ties: Iterable[Affiliation]) -> str:
    """The declared tie that keeps a person from reviewing the unit, in words, or nothing."""
    people = set(authors)
    for tie in ties:
        if tie.other_id in people:
            return f"You declared a tie to the contributor: {tie.relation}"
        if tie.organisation and names_meet(tie.organisation, unit.maker):
            return f"You declared a tie to {tie.organisation}: {tie.relation}"
    return ""


@transaction.atomic
def declare_tie(*, person: User, relation: str, organisation: str = "",
                other: User | None = None) -> Affiliation:
    tie = Affiliation.objects.create(person=person, organisation=organisation, other=other,
                                     relation=relation)
    record(person, "tie_declared", subject=f"tie/{tie.pk}")
    return tie


@transaction.atomic
def end_tie(*, person: User, pk: int) -> None:
    """It is kept, with the day on which it ended. Raises Http404."""
    tie = Affiliation.objects.select_for_update().filter(
        pk=pk, person=person, ended_at=None).first()
    if tie is None:
        raise Http404("No such tie.")
    tie.ended_at = timezone.now()
    tie.save(update_fields=["ended_at"])
    record(person, "tie_ended", subject=f"tie/{tie.pk}")
