"""The files of records on paper: handed out, and swept when nobody wanted them for a while."""
from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import IO

from django.core.files.storage import Storage, storages
from django.utils import timezone

from teardowns.models import Printout, PrintoutState

UNUSED = timedelta(days=30)
CARDS = "cards"                  # folder of preview pictures, which no row names


def open_printout(digest: str) -> IO[bytes] | None:
    """The PDF, or None where it is not made or its file is gone: then it can be asked for anew."""
    printout = Printout.objects.filter(digest=digest, state=PrintoutState.MADE).first()
    if printout is None:
        return None
    today = timezone.now().date()
    if printout.used_on != today:
        Printout.objects.filter(pk=printout.pk).update(used_on=today)
    try:
        return storages["printouts"].open(printout.path)
    except FileNotFoundError:
        Printout.objects.filter(pk=printout.pk).update(state=PrintoutState.FAILED)
        return None


def sweep_printouts() -> int:
    """Forget what nobody wanted for a month; the row first, so that no page offers a lost file."""
    old = timezone.now() - UNUSED
    store, swept = storages["printouts"], 0
    for printout in Printout.objects.filter(used_on__lt=old.date()):
        printout.delete()
        store.delete(printout.path)
        swept += 1
    for name in _files(store, f"{CARDS}/"):
        if store.get_modified_time(name) < old:
            store.delete(name)
            swept += 1
    return swept


def _files(store: Storage, folder: str) -> Iterator[str]:
    try:
        yield from (folder + name for name in store.listdir(folder)[1])
    except FileNotFoundError:
        return
