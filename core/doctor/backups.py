"""How old the newest backup is, where BACKUPS says where they lie."""
from datetime import timedelta

from django.conf import settings
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
