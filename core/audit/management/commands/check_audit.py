"""Say whether the audit log is whole: every entry follows from the one before it."""
import re

from django.core.management.base import BaseCommand, CommandError
from django.db import connection

from core.audit import triggers
from core.audit.check import check_log
from core.audit.models import Entry

WITNESS = re.compile(r"(\d{1,18}):([0-9a-f]{64})")


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser):
        parser.add_argument("--witness", metavar="NUMBER:HASH",
                            help="an end of the log, noted down earlier, that must still be there")
        parser.add_argument("--install-triggers", action="store_true",
                            help="first put the triggers on the table that refuse changes")

    def handle(self, *args, witness=None, install_triggers=False, **options):
        if install_triggers:
            triggers.install(connection)
        if witness:
            self._check_witness(witness)
        fault, last, at = check_log()
        if fault:
            raise CommandError(f"Entry {fault.sequence} {fault.reason}.")
        if lacking := triggers.missing(connection):
            self.stderr.write(f"The table lacks the triggers {', '.join(lacking)}.")
        self.stdout.write(f"{last} entries, each follows from the one before it. "
                          f"To note down elsewhere: {last}:{at}")

    def _check_witness(self, witness):
        """Whoever rewrote the whole chain cannot have rewritten what was noted elsewhere."""
        noted = WITNESS.fullmatch(witness)
        if noted is None:
            raise CommandError("--witness takes a number, a colon and 64 hexadecimal digits, as an "
                               "earlier run printed them.")
        number, hash = noted.groups()
        if not Entry.objects.filter(sequence=number, hash=hash).exists():
            raise CommandError(f"Entry {number} is not the one that was noted down.")
