"""The verdict on a unit document; needs no database and opens none unless it is asked to."""
import json
import sys

from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError

from teardowns.engine import rulebook
from teardowns.exchange.verdict import assumptions, verdicts
from teardowns.management.document_files import document_of
from teardowns.management.terminal import print_verdict
from teardowns.services.active_rulebook import active_rulebook


class Command(BaseCommand):
    help = "Say what the evidence in a unit document makes of its claims."
    requires_system_checks = []

    def add_arguments(self, parser):
        parser.add_argument("file", help='a unit document, or "-" for standard input')
        parser.add_argument("--json", action="store_true", help="print all numbers as JSON")
        parser.add_argument("--site", action="store_true",
                            help="with the reference set that is in force in this site's "
                                 "database; without, by the rulebook's own habits")

    def handle(self, *args, file, **options):
        document = document_of(file)
        rules = site_rulebook() if options["site"] else rulebook.load()
        (report,) = verdicts([document], rules=rules)
        if hasattr(sys.stdout, "reconfigure"):      # a terminal without our signs shows "?"
            sys.stdout.reconfigure(errors="replace")
        if options["json"]:
            self.stdout.write(json.dumps(report, ensure_ascii=False, allow_nan=False, indent=1))
        else:
            assumed = assumptions(document, rules=rules)
            self.stdout.write(print_verdict(document, report, assumed))


def site_rulebook():
    try:
        return active_rulebook()
    except DatabaseError as error:
        raise CommandError(f"The site's database cannot be read ({error}); start it, or leave out "
                           "--site.") from None
