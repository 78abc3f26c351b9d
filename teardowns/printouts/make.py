"""Make a record on paper, in the worker: read, set, keep."""
from __future__ import annotations

import logging
from datetime import timedelta

from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.db.models import F, Q
from django.http import Http404
from django.utils import timezone, translation

from teardowns.models import Printout, PrintoutState
from teardowns.services.public_versions import public_versions
from teardowns.typesetting.typeset import NotSet, typeset

from .document import document_of
from .key import printout_key

STEPS = ("Waiting for the worker", "Reading the record and working its numbers out",
         "Setting the pages", "Keeping the file")
LEFT_ALONE = timedelta(seconds=150)      # longer than a job may take: its worker is gone
log = logging.getLogger(__name__)


def make_printout(pk: int) -> None:
    """Safe to run twice, also at once: one run alone makes it."""
    printout = _begun(pk)
    if printout is None:
        return
    try:
        _make(printout)
    except (Changed, NotSet, Http404, OSError) as problem:
        log.warning("%s was not made: %s", printout, problem)
        Printout.objects.filter(pk=pk).update(state=PrintoutState.FAILED)
    except Exception:
        Printout.objects.filter(pk=pk).update(state=PrintoutState.FAILED)
        raise


class Changed(Exception):
    """What was asked for is not what stands now: another printout has to be asked for."""


def _begun(pk):
    now = timezone.now()
    free = Q(state=PrintoutState.WAITING) | Q(
        state=PrintoutState.MAKING, began_at__lt=now - LEFT_ALONE)
    taken = Printout.objects.filter(free, pk=pk).update(
        state=PrintoutState.MAKING, step=1, began_at=now, tries=F("tries") + 1)
    return Printout.objects.get(pk=pk) if taken else None


def _make(printout):
    versions = public_versions([tuple(one) for one in printout.versions])
    if (len(versions) != len(printout.versions)
            or printout_key(versions, printout.language) != printout.digest):
        raise Changed("The record has changed since.")
    with translation.override(printout.language):
        document, pictures = document_of(versions)
    _at(printout, 2)
    made = typeset(document, pictures)
    _at(printout, 3)
    store = storages["printouts"]
    store.delete(printout.path)          # of a run that ended between file and row
    store.save(printout.path, ContentFile(made))
    Printout.objects.filter(pk=printout.pk).update(
        state=PrintoutState.MADE, made_at=timezone.now(), byte_size=len(made))


def _at(printout, step):
    Printout.objects.filter(pk=printout.pk).update(step=step)
