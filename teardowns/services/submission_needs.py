"""The few things without which nothing is handed in, and how often a new account may."""
from __future__ import annotations

from datetime import timedelta

from django.db.models import Exists, Min, OuterRef, Q, QuerySet
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import (
    Photo,
    PhotoPrivacyCheck,
    Publication,
    Source,
    State,
    Submission,
    Unit,
)

# Our own choice: what a new account hands in waits for a person, so it shall not flood them.
FIRST_UNITS = 3
BETWEEN = timedelta(days=1)

NO_TEXT = ("Write at least one claim or one printed text, or say of the rating plate “Looked, not "
           "found” or “Not readable”: without any of these there is nothing to hold the evidence "
           "against.")
TOO_MANY = (f"Until one of your records is published, {FIRST_UNITS} of them can be handed in, and "
            "that many are. This one is kept; it can be handed in once one of them is published.")
TOO_SOON = ("Until one of your records is published, one a day can be handed in. This one is kept; "
            "it can be handed in from {} on.")
NO_PHOTO = ("Add one photo at least, or write why there is none: reviewers can confirm little that "
            "they cannot see.")


def has_something_printed(unit: Unit) -> bool:
    """A claim, a printed text, or the statement that there is no plate or that it is illegible."""
    looked = Q(source=Source.PLATE, state__in=(State.NOT_FOUND, State.NOT_READABLE))
    return (unit.claims.filter(state=State.RECORDED).exists()
            or unit.printedtexts.filter(Q(state=State.RECORDED) | looked).exists())


def unchecked_photos(unit: Unit) -> QuerySet[Photo]:
    """Photos of which nobody has said, of this version, that nothing private is in them."""
    checks = PhotoPrivacyCheck.objects.filter(photo=OuterRef("pk"),
                                              photo_version=OuterRef("version"))
    return unit.photos.shown().filter(~Exists(checks))


def wait_of_new_account(author: User, unit: Unit) -> str:
    """Why this person may not hand in another unit yet, and when they may; "" where they may.

    A unit that was handed in before may always be again.
    """
    first, is_known = {}, False
    for pk, at, published in _handed_in(author):
        first[pk], is_known = at, is_known or published
    if is_known or unit.pk in first:
        return ""
    if len(first) >= FIRST_UNITS:
        return TOO_MANY
    free = max(first.values()) + BETWEEN if first else timezone.now()
    return TOO_SOON.format(f"{free:%Y-%m-%d %H:%M} UTC") if free > timezone.now() else ""


def _handed_in(author):
    """Each unit that this person handed in: when first, and whether any version is public."""
    published = Publication.objects.filter(
        Q(unit__contributor=author) | Q(correction__author=author))
    return Submission.objects.filter(author=author).order_by().values_list("unit").annotate(
        first=Min("at"), published=Exists(published))
