"""Keep a question to the list of units, so that its asker hears of new answers."""
from __future__ import annotations

import json
from hashlib import sha256

from django.db import transaction

from core.accounts.models import User
from teardowns.browsing.finding import Choices
from teardowns.models import SavedSearch
from teardowns.workflow import NotNow

from .find_units import matching
from .listing_clock import current_mark
from .packed_units import pack

MOST = 50
TOO_MANY = (f"You have {MOST} saved searches, which is as many as there may be. Drop one of them "
            "under Saved searches, then save this one.")
EVERYTHING = ("This would watch every unit. Search for a word or choose something that narrows the "
              "list, then save it; news of all units stand in the feed.")


@transaction.atomic
def save_search(*, person: User, name: str, text: str,
                choices: Choices) -> tuple[SavedSearch, bool]:
    """The search, and whether it is new: the same question is kept once. Raises NotNow.

    text : words as typed, or ""; choices : by facet, values that the list knows
    """
    kept = {facet: sorted(values) for facet, values in sorted(choices.items()) if values}
    if not kept and not text:
        raise NotNow(EVERYTHING)
    User.objects.select_for_update().get(pk=person.pk)      # one at a time counts
    digest = digest_of(text, kept)
    known = person.saved_searches.filter(digest=digest).first()
    if known is not None:
        return known, False
    if person.saved_searches.count() >= MOST:
        raise NotNow(TOO_MANY)
    looked = current_mark().number          # first: what changes meanwhile is looked at later
    found = set(matching(text, kept))
    return SavedSearch.objects.create(
        person=person, name=name, text=text, choices=kept, digest=digest, looked=looked,
        found=pack(found)), True


def digest_of(text: str, choices: Choices) -> str:
    """The same for words that differ in case and spaces alone."""
    words = " ".join(text.casefold().split())
    return sha256(json.dumps([words, choices], sort_keys=True).encode()).hexdigest()


def rename_search(*, person: User, pk: int, name: str) -> bool:
    """Whether it is there."""
    return bool(person.saved_searches.filter(pk=pk).update(name=name))


def drop_search(*, person: User, pk: int) -> bool:
    """Whether it was still there."""
    return bool(person.saved_searches.filter(pk=pk).delete()[0])
