"""Open a correction of a public unit: its author gets the bench, everybody else the old version."""
from __future__ import annotations

from django.db import transaction
from django.http import Http404
from django.urls import reverse

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import Correction, NoticeKind, Publication, Status, Unit
from teardowns.workflow import NotNow

from .assess_units import assess_units
from .move_work import locked_unit
from .notify import notify
from .restore_rows import restore_rows
from .state_reasons import NoReason

SHORTEST = 10              # characters of a reason that says something
SAY_WHAT = ("Write what is wrong and how you know, such as “the bulk capacitor is 6.8 µF: the "
            "photo shows it”. Reviewers and readers see it.")
NOT_PUBLIC = "Only a record that stands in public can be corrected, and this one does not now."
OPEN_BY_YOU = "You have a correction of this record open already, since {since:%Y-%m-%d}."
OPEN_BY_OTHER = ("{name} has a correction of this record open since {since:%Y-%m-%d}, and only one "
                 "is worked on at a time. Write in its discussion what you know.")
MEANWHILE = ("Another version was published since. Open a new correction on it; what you proposed "
             "then stays readable beside it.")


@transaction.atomic
def open_correction(*, author: User, unit_pk: int, reason: str, again: int | None = None
                    ) -> Correction:
    """The correction, whose author writes on the unit's rows from now on.

    again : number of an own correction that came to nothing, whose proposal is taken up once more
    Raises Http404, NotNow, or NoReason for a reason that says too little.
    """
    unit = locked_unit(unit_pk)
    base = _public_version(unit)
    if (taken := unit.work.correction) is not None:
        raise NotNow(sentence_of_open(taken, author))
    if len(reason.strip()) < SHORTEST:
        raise NoReason(SAY_WHAT)
    earlier = _earlier(unit, author, again)
    correction = Correction.objects.create(
        unit=unit, author=author, base=base, reason=reason.strip())
    if earlier and earlier.proposal:
        restore_rows(unit, earlier.proposal["frozen"], author, author)
        assess_units([unit])
    notify([unit.contributor_id], NoticeKind.CORRECTION, actor=author, unit=unit,
           subject=f"correction/{correction.pk}", words=correction.reason,
           address=reverse("unit_correction", args=[unit.pk, correction.pk]),
           event=f"correction/{correction.pk}")
    record(author, "correction_opened", unit=unit, subject=f"correction/{correction.pk}",
           reason=correction.reason, base=base.number,
           **({"again": earlier.pk} if earlier else {}))
    return correction


def sentence_of_open(correction: Correction, person: User) -> str:
    """Who works on a correction, since when; for the page and for a refusal."""
    words = OPEN_BY_YOU if correction.author_id == person.pk else OPEN_BY_OTHER
    return words.format(name=correction.author.get_username(), since=correction.opened_at)


def _public_version(unit: Unit) -> Publication:
    if unit.status not in (Status.PUBLISHED, Status.WITHDRAWN):
        raise Http404("No such unit.")
    if unit.publication is None or not unit.is_public:
        raise NotNow(NOT_PUBLIC)
    return unit.publication


def _earlier(unit: Unit, author: User, pk: int | None) -> Correction | None:
    if pk is None:
        return None
    found = unit.corrections.filter(pk=pk, author=author, proposal__isnull=False).first()
    if found is None:
        raise Http404("No such correction of yours.")
    if found.base_id != unit.publication_id:
        raise NotNow(MEANWHILE)
    return found
