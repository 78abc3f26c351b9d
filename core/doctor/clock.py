"""Whether this machine's clock can be believed: codes and limits hang on it."""
from datetime import UTC, datetime, timedelta

from django.db import connection
from django.utils import timezone

from core.audit.models import Entry
from core.doctor.findings import examines, fault, good, warning

APART = timedelta(seconds=5)
SYNCHRONISE = "Let chrony or systemd-timesyncd keep the clock of every host."


@examines("clock", asks_database=True)
def clocks_agree():
    apart = abs(_clock_of_database() - timezone.now())
    if apart > APART:
        yield warning(f"The database's clock and this machine's are {apart.total_seconds():.0f} s "
                      "apart: codes of second factors would be refused.", SYNCHRONISE)
    else:
        yield good("The clocks of the database and of this machine agree.")


@examines("clock", asks_database=True)
def nothing_lies_in_the_future():
    newest = Entry.objects.order_by("-sequence").values_list("at", flat=True).first()
    if newest and newest > timezone.now() + APART:
        yield fault(f"The newest entry of the log is of {newest:%Y-%m-%d %H:%M}, which is yet to "
                    "come: a clock was set back, or another is fast.", SYNCHRONISE)


def _clock_of_database():
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SELECT clock_timestamp()")
            return cursor.fetchone()[0]
        cursor.execute("SELECT strftime('%s', 'now')")
        return datetime.fromtimestamp(int(cursor.fetchone()[0]), UTC)
