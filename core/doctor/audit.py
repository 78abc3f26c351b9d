"""The end of the log's chain, and the triggers that keep it."""
from django.db import connection

from core.audit import triggers
from core.audit.chain import BEGINNING
from core.audit.check import check_log
from core.audit.models import Entry, Head
from core.doctor.findings import examines, fault, good

LAST = 500      # entries; `check_audit` follows all


@examines("audit", asks_database=True)
def the_end_of_the_log_holds():
    head = Head.objects.filter(pk=1).first()
    before = Entry.objects.filter(sequence=(head.sequence if head else 0) - LAST).first()
    fault_found, last, at = check_log(*((before.sequence, before.hash) if before
                                        else (0, BEGINNING)))
    if fault_found:
        yield fault(f"Entry {fault_found.sequence} of the log {fault_found.reason}.",
                    "Somebody changed the log past the site. Keep the database as it is, and hold "
                    "manage.py check_audit --witness against what was noted down.")
    else:
        yield good(f"The last entries of the log follow from each other; its end is {last}:{at}.")


@examines("audit", asks_database=True)
def the_database_keeps_the_log():
    if lacking := triggers.missing(connection):
        yield fault(f"The database lets entries of the log be changed: it lacks "
                    f"{', '.join(lacking)}.", "Run manage.py check_audit --install-triggers.")
    else:
        yield good("The database refuses to change entries of the log.")
