"""How many proposals to the library wait for a moderator, and for how long."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Count, Min
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import BoardFamilyMember, PartProposal

WAITING = {"parts": PartProposal, "families": BoardFamilyMember}


@dataclass(frozen=True)
class Waiting:
    count: int
    oldest: datetime | None      # when the oldest of them was proposed

    @property
    def age(self) -> timedelta:
        """Of the oldest; none when nothing waits."""
        return timezone.now() - self.oldest if self.oldest else timedelta(0)


def library_waiting(moderator: User | None = None) -> dict[str, Waiting]:
    """By "parts" and "families"; a query each. For a moderator their own do not count, for they
    cannot decide about them."""
    return {name: _waiting(model.objects.open(), moderator) for name, model in WAITING.items()}


def _waiting(proposals, moderator):
    if moderator is not None:
        proposals = proposals.exclude(proposer=moderator)
    found = proposals.aggregate(count=Count("pk"), oldest=Min("proposed_at"))
    return Waiting(found["count"], found["oldest"])
