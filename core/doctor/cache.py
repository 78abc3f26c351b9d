"""The table in which attempts are counted, where all processes see them."""
import secrets

from django.core.cache import cache
from django.db import DatabaseError

from core.doctor.findings import examines, fault, good


@examines("cache", asks_database=True)
def attempts_are_counted():
    name, value = f"doctor-{secrets.token_hex(8)}", secrets.token_hex(8)
    try:
        cache.set(name, value, 30)
        kept = cache.get(name) == value
        cache.delete(name)
    except DatabaseError:
        kept = False
    if kept:
        yield good("The table in which attempts to sign in are counted works.")
    else:
        yield fault("Attempts to sign in cannot be counted: the table “cache” does not work.",
                    "Run manage.py migrate, or manage.py createcachetable.")
