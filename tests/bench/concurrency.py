"""Edits, double submits, replays and limits by many threads at once: what is lost or doubled.

python -m tests.bench.concurrency [count] [threads]

On the database of DATABASE_URL, in a scratch database that is removed afterwards; the triggers of
the audit log are in place. Exits 1 unless nothing is lost or doubled and each change has exactly
one audit entry.
"""
import os
import random
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from uuid import uuid4

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.conf import settings  # noqa: E402
from django.db import OperationalError, connection, transaction  # noqa: E402
from django.shortcuts import redirect  # noqa: E402
from django.test import Client, RequestFactory  # noqa: E402
from django.test.utils import setup_test_environment  # noqa: E402
from django.urls import reverse  # noqa: E402
from django.utils import timezone  # noqa: E402

from core.accounts.models import User  # noqa: E402
from core.audit import triggers  # noqa: E402
from core.audit.check import check_log  # noqa: E402
from core.audit.models import Entry  # noqa: E402
from core.audit.record import record  # noqa: E402
from core.buckets import HOUR, take  # noqa: E402
from core.once import once  # noqa: E402
from teardowns.models import ContributionLicence, Photo, PhotoDerivative, Unit  # noqa: E402
from teardowns.services.describe_photo import StalePhoto, describe_photo  # noqa: E402
from tests.handing_in import sent as sent_form  # noqa: E402
from tests.handing_in import with_plate  # noqa: E402

COUNT, THREADS = 200, 20
CAPTION = 250               # letters of one photo; it takes 300
READING = 0.2           # s at most until somebody who was told of a conflict tries again
ASKS, CAPACITY = 100, 20
BUSY: list[object] = []


def main(count=COUNT, threads=THREADS):
    with scratch_database(), ThreadPoolExecutor(threads) as pool:
        alice, bob = (User.objects.create_user(name, email_verified_at=timezone.now())
                      for name in ("alice", "bob"))
        print(f"{connection.vendor}, {count} of each by {threads} threads")
        sound = [edits(pool, alice, count), double_submits(pool, alice, count),
                 replays(pool, alice, bob, count), hand_ins(pool, alice, count),
                 crossed_locks(pool, alice, count), limits(pool), chain(4 * count)]
        list(pool.map(lambda _: connection.close(), range(threads)))
    return int(not all(sound))


@contextmanager
def scratch_database():
    class TablesFromModels(dict):
        def __contains__(self, app):
            return True

        def __getitem__(self, app):
            return None

    settings.MIGRATION_MODULES = TablesFromModels()
    settings.STORAGES = settings.STORAGES | {"staticfiles": {
        "BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}}
    with tempfile.TemporaryDirectory() as folder:
        name = str(Path(folder) / "drill.sqlite3") if connection.vendor == "sqlite" \
            else f"drill_{os.getpid()}"
        connection.settings_dict["TEST"] = connection.settings_dict["TEST"] | {"NAME": name}
        before = connection.settings_dict["NAME"]
        connection.creation.create_test_db(verbosity=0, autoclobber=True, serialize=False)
        triggers.install(connection)
        try:
            yield
        finally:
            connection.creation.destroy_test_db(before, verbosity=0)


def at_once(pool, act, items):
    """What each came to, on a connection of its own as requests have.

    Whoever waits for SQLite's one writer for longer than the time-out sends it once more.
    """
    def act_and_close(item):
        while True:
            try:
                return act(item)
            except OperationalError:
                BUSY.append(item)
            finally:
                connection.close()
    return list(pool.map(act_and_close, items))


def edits(pool, author, count):
    """A photo's caption, to which each adds a letter of their own after what they have seen; as
    many photos as have room for the letters."""
    unit = Unit.objects.create(contributor=author, title="Drill")
    photos = [Photo.objects.create(unit=unit, author=author, key=f"case-{n}", sha256=f"{n:064x}")
              for n in range(-(-count // CAPTION))]
    for photo in photos:
        PhotoDerivative.objects.create(photo=photo, path=photo.key, width=1, height=1)

    letters = [chr(0x4E00 + number) for number in range(count)]

    def edit(letter):
        told = 0
        photo = photos[(ord(letter) - 0x4E00) // CAPTION]
        while True:
            seen = Photo.objects.get(pk=photo.pk)
            try:
                describe_photo(author=author, photo=seen, version=seen.version, stage="other",
                               caption=seen.caption + letter, alt="")
            except StalePhoto:
                told += 1
                time.sleep(random.uniform(0, READING))
            else:
                return told

    told = sum(at_once(pool, edit, letters))
    kept = "".join(Photo.objects.filter(unit=unit).values_list("caption", flat=True))
    entries = Entry.objects.filter(action="photo_described").count()
    print(f"edits: {count - len(set(kept))} lost, {len(kept) - len(set(kept))} doubled, "
          f"{entries} audit entries; told of a conflict and tried again: {told}")
    return sorted(kept) == letters and entries == count


@once
@transaction.atomic
def open_sheet(request):
    """What a view does that makes something new."""
    unit = Unit.objects.create(contributor=request.user, title=request.POST["title"])
    record(request.user, "unit_started", unit)
    return redirect(f"/bench/{unit.pk}/")


def sent(user, key, title):
    request = RequestFactory().post("/bench/new/", {"once": key, "title": title})
    request.user = user
    response = open_sheet(request)
    return response.status_code, response.get("Location")


def made(title):
    units = Unit.objects.filter(title__startswith=title)
    entries = Entry.objects.filter(action="unit_started", unit__in=units.values("pk")).count()
    return units.count(), entries


def double_submits(pool, author, count):
    """Each form twice at the same moment."""
    forms = [(str(uuid4()), f"Double {number}") for number in range(count)]
    forms = [form for form in forms for _ in "12"]
    answers = at_once(pool, lambda form: sent(author, *form), forms)
    units, entries = made("Double")
    unlike = sum(one != other for one, other in zip(answers[::2], answers[1::2], strict=True))
    different = len(set(answers))
    print(f"double submits: {max(0, count - units)} lost, {max(0, units - count)} doubled, "
          f"{entries} audit entries; answered differently: {unlike}")
    return units == entries == different == count and not unlike


def replays(pool, author, other, count):
    """One key: the same form, other words, and somebody else who happens to use it."""
    key = str(uuid4())
    first = sent(author, key, "Replayed 0")
    answers = at_once(pool, lambda _: sent(author, key, "Replayed 0"), range(count))
    refused = at_once(pool, lambda number: sent(author, key, f"Replayed {number}"), range(1, 9))
    units, entries = made("Replayed")
    fresh = [str(uuid4()) for _ in range(count - 1)]
    at_once(pool, lambda key: sent(other, key, "Fresh"), [key, *fresh, key, *fresh])
    isolated = Unit.objects.filter(title="Fresh", contributor=other).count()
    print(f"replays: {1 - min(1, units)} lost, {units - 1} doubled, {entries} audit entries; "
          f"answered differently: {len({first, *answers}) - 1}; other words refused: "
          f"{sum(status == 422 for status, _ in refused)} of 8; of {count} keys of somebody else "
          f"acted on: {isolated}")
    return ((units, entries, {first, *answers}, isolated) == (1, 1, {first}, count)
            and {status for status, _ in refused} == {422})


def hand_ins(pool, author, count):
    """One sheet, handed in by so many requests at once: half are one form that is sent again and
    again, half come from tabs of their own."""
    unit = with_plate(Unit.objects.create(contributor=author, title="Handed in"), author)
    signed_in, form = Client(), str(uuid4())
    signed_in.force_login(author)
    address = reverse("bench_submit", args=[unit.pk])

    def act(number):
        tab = Client()
        tab.cookies = signed_in.cookies.copy()
        sent = sent_form(once=str(uuid4()) if number % 2 else form)
        # A process lets a few write at once and tells the others to come back: they do.
        while (status := tab.post(address, sent).status_code) == 503:
            time.sleep(0.05)
        return status

    answers = at_once(pool, act, range(count))
    kept = unit.submissions.count()
    terms = ContributionLicence.objects.filter(unit=unit).count()
    entries = Entry.objects.filter(action="work_submit", unit=unit.pk).count()
    led_on = sum(status in (200, 302) for status in answers)
    print(f"hand-ins of one sheet: {1 - min(1, kept)} lost, {max(0, kept - 1)} doubled, {entries} "
          f"audit entries, {terms} agreements; of {count} requests {led_on} led on")
    return kept == entries == terms == 1 and led_on == count


def crossed_locks(pool, author, count):
    """Half lock the person and record; half add a row that names the person, and record."""
    @transaction.atomic
    def act(number):
        if number % 2:
            User.objects.select_for_update().get(pk=author.pk)
        else:
            Unit.objects.create(contributor=author, title="Crossed")
        record(author, "unit_started", subject=f"crossed/{number}")

    at_once(pool, act, range(count))
    entries = Entry.objects.filter(subject__startswith="crossed/").count()
    print(f"crossed locks: {entries} of {count} recorded")
    return entries == count


def limits(pool):
    granted = sum(wait == 0 for wait in at_once(
        pool, lambda _: take("drill", "", CAPACITY, 1000 * HOUR), range(ASKS)))
    print(f"limits: of {ASKS} asks {granted} granted, {CAPACITY} were to be had")
    return granted == CAPACITY


def chain(least):
    fault, entries, _ = check_log()
    whole = fault is None and entries == Entry.objects.count() > least
    print(f"audit log: {entries} entries, {'whole' if fault is None else fault}; "
          f"triggers missing: {len(triggers.missing(connection))}")
    print(f"refused because the database was busy or in a deadlock, and sent again: {len(BUSY)}")
    is_let_wait = connection.vendor == "sqlite" or not BUSY         # a deadlock there is a fault
    return whole and is_let_wait and not triggers.missing(connection)


if __name__ == "__main__":
    setup_test_environment()
    sys.exit(main(*map(int, sys.argv[1:])))
