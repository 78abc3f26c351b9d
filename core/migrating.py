"""While tables are altered, nobody waits long: a step that does not get its lock gives up.

On PostgreSQL a step that waits for a lock has everybody else wait behind it. So it waits for some
seconds, fails as a whole, and is begun again. (SQLite has one writer; its wait is in the settings.)
"""
from django.db import connections

LONGEST = "4s"


def wait_briefly(using="default", **kwargs):
    """Before `migrate`."""
    _say(using, f"SET lock_timeout = '{LONGEST}'")


def wait_as_ever(using="default", **kwargs):
    """After it."""
    _say(using, "RESET lock_timeout")


def _say(using, words):
    if connections[using].vendor == "postgresql":
        with connections[using].cursor() as cursor:
            cursor.execute(words)
