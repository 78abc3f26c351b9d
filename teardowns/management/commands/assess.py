"""The verdict on a unit document; needs no database and opens none."""
import json
import sys

from django.core.management.base import BaseCommand

from teardowns.exchange.verdict import assumptions, verdicts
from teardowns.management.document_files import document_of
from teardowns.management.terminal import print_verdict


class Command(BaseCommand):
    help = "Say what the evidence in a unit document makes of its claims."
    requires_system_checks = []

    def add_arguments(self, parser):
        parser.add_argument("file", help='a unit document, or "-" for standard input')
        parser.add_argument("--json", action="store_true", help="print all numbers as JSON")

    def handle(self, *args, file, **options):
        document = document_of(file)
        (report,) = verdicts([document])
        if hasattr(sys.stdout, "reconfigure"):      # a terminal without our signs shows "?"
            sys.stdout.reconfigure(errors="replace")
        if options["json"]:
            self.stdout.write(json.dumps(report, ensure_ascii=False, allow_nan=False, indent=1))
        else:
            self.stdout.write(print_verdict(document, report, assumptions(document)))
