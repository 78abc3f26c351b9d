"""Hand in a bench sheet, or a correction, for review."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.db import transaction
from django.utils import timezone

from core.accounts.models import User
from teardowns import access, licence
from teardowns.models import ContributionLicence, ReviewRemark, Submission, Unit, UnsavedSection
from teardowns.workflow import NotNow, after

from .move_work import locked_unit, move
from .submission_needs import (
    NO_PHOTO,
    NO_TEXT,
    has_something_printed,
    unchecked_photos,
    wait_of_new_account,
)

FORM = "submit"              # the name under which what is typed into the form is kept
MORE_PHOTOS = "Tick each photo once you have looked at it: {} not ticked for how it looks now."
ANSWER_ALL = "Answer each remark, in a word at least: {} have no answer yet."
OWN_RIGHTS = ("Tick this: without it nobody may show or use what you hand in. If somebody else’s "
              "text or photo is in it, say so below.")
LOOKED_INTO = "A moderator is looking into this record: until that is done it stays as it is."
OTHER_TERMS = "The terms were changed while you wrote: read them again, then hand it in."


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that has to be there first: where on the form, and a sentence."""

    field: str               # "" of none
    sentence: str


class Incomplete(Exception):
    """Nothing was handed in; `.missing` says what has to be there first."""

    def __init__(self, missing: list[Missing]):
        super().__init__(" ".join(each.sentence for each in missing))
        self.missing = missing


@dataclass(frozen=True, slots=True)
class Terms:
    """What the author agreed to and stated."""

    edition: int
    own_rights: bool
    third_party: str
    third_party_note: str = ""


@transaction.atomic
def submit_unit(*, author: User, unit_pk: int, terms: Terms, message: str = "",
                why_no_photo: str = "", answers: Mapping[int, str] | None = None) -> Submission:
    """The submission. Raises Http404, NotNow or Incomplete; then nothing was written.

    answers : by pk of the remark that it answers
    """
    User.objects.select_for_update().get(pk=author.pk)     # its limit is counted once at a time
    locked_unit(unit_pk)
    unit = access.unit_of_own(author, unit_pk)
    _require_open(unit)
    remarks = list(ReviewRemark.objects.of_open_work(unit).unanswered())
    answers = {pk: text.strip() for pk, text in (answers or {}).items() if text.strip()}
    _require(author, unit, terms, why_no_photo, [r for r in remarks if r.pk not in answers])
    submission = Submission.objects.create(
        unit=unit, correction=unit.work.correction, author=author, message=message,
        why_no_photo="" if unit.photos.shown().exists() else why_no_photo)
    _agree(submission, terms)
    _answer(remarks, answers)
    UnsavedSection.objects.filter(unit=unit, author=author, section=FORM).delete()
    move(unit, "submit", author, submission=submission.pk)
    return submission


def _require_open(unit: Unit) -> None:
    if unit.quarantined_at is not None:
        raise NotNow(LOOKED_INTO)
    after(unit.work.status, "submit")


def _require(author, unit: Unit, terms: Terms, why_no_photo: str, unanswered: list) -> None:
    missing = []
    if not has_something_printed(unit):
        missing.append(Missing("", NO_TEXT))
    if not why_no_photo.strip() and not unit.photos.shown().exists():
        missing.append(Missing("why_no_photo", NO_PHOTO))
    if unchecked := unchecked_photos(unit).count():
        missing.append(Missing("", MORE_PHOTOS.format(
            "one is" if unchecked == 1 else f"{unchecked} are")))
    if unanswered:
        missing.append(Missing("", ANSWER_ALL.format(len(unanswered))))
    if not terms.own_rights:
        missing.append(Missing("own_rights", OWN_RIGHTS))
    if terms.edition != licence.IN_FORCE.number:
        missing.append(Missing("own_rights", OTHER_TERMS))
    if wait := wait_of_new_account(author, unit):
        missing.append(Missing("", wait))
    if missing:
        raise Incomplete(missing)


def _agree(submission: Submission, terms: Terms) -> None:
    edition = licence.EDITIONS[terms.edition]
    ContributionLicence.objects.create(
        submission=submission, unit=submission.unit, author=submission.author,
        measurements=licence.MEASUREMENTS, works=licence.WORKS, edition=edition.number,
        text_sha256=edition.sha256, own_rights=terms.own_rights, third_party=terms.third_party,
        third_party_note=terms.third_party_note)


def _answer(remarks: list[ReviewRemark], answers: Mapping[int, str]) -> None:
    now = timezone.now()
    for remark in remarks:
        remark.answer, remark.answered_at = answers[remark.pk], now
    ReviewRemark.objects.bulk_update(remarks, ["answer", "answered_at"])
