"""How old the newest backup is, where BACKUPS says where they lie."""
import re
import shutil
import subprocess
from datetime import timedelta

from django.conf import settings
from django.db import connection
from django.utils import timezone

from core.backup.bags import begun_at, newest_bag
from core.doctor.findings import examines, fault, good, note, warning

OLD = timedelta(hours=25)
MAKE = "Run manage.py backup FOLDER daily, or the timer of fixtures/deploy/."


@examines("backups")
def a_backup_is_fresh():
    if settings.BACKUPS is None:
        yield note("Where backups lie is not stated, so nobody looks how old they are.",
                   "Set BACKUPS to their folder.")
        return
    newest = newest_bag(settings.BACKUPS)
    if newest is None:
        yield fault(f"There is no whole backup in {settings.BACKUPS}.", MAKE)
        return
    age = timezone.now() - begun_at(newest)
    said = f"The newest backup, {newest.name}, is {age.total_seconds() / 3600:.0f} hours old."
    yield warning(said, MAKE) if age > OLD else good(said)


@examines("backups", asks_database=True)
def the_program_fits_the_server():
    if connection.vendor != "postgresql":
        return
    server, ours = connection.get_database_version()[0], release_of("pg_dump")
    if ours is None or ours < server:
        have = "is not installed" if ours is None else f"is of release {ours}"
        yield warning(f"pg_dump {have} here, and the server is of release {server}: no backup can "
                      "be made from this host.",
                      f"apt-get install postgresql-client-{server}, where backups are made.")


def release_of(program):
    if not shutil.which(program):
        return None
    said = subprocess.run([program, "--version"], capture_output=True, text=True, check=False)
    found = re.search(r" (\d+)", said.stdout)
    return int(found[1]) if found else None
