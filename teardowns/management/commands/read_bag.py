"""A bag that somebody brings: is it whole, and does its evidence say here what it said there?"""
import tempfile
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from core.accounts.models import User
from teardowns.bulk.bag import BadBag, read_bag
from teardowns.exchange.document import DocumentError
from teardowns.management.document_files import BAD_INPUT, refusal
from teardowns.management.terminal import plain
from teardowns.services.import_unit import import_unit


class Command(BaseCommand):
    help = "Check a bag of a record, judge its evidence anew, and say whether both agree."
    requires_system_checks = []

    def add_arguments(self, parser):
        parser.add_argument("file", type=Path, help="a zipped bag, or the folder of one")
        parser.add_argument("--import-as", metavar="ACCOUNT",
                            help="then bring the record in as a bench sheet of this account")

    def handle(self, *args, file, import_as, **options):
        with tempfile.TemporaryDirectory() as work:
            try:
                reading = read_bag(file, Path(work))
            except (BadBag, OSError) as error:
                raise CommandError(f"{file}: {plain(str(error))}", returncode=BAD_INPUT) from None
        self.say(reading)
        if import_as:
            self.bring_in(file, reading.document, import_as)

    def say(self, reading):
        self.stdout.write("Checksums: all agree.")
        self.stdout.write(f"Evidence: {reading.digest}, "
                          f"{'the same' if reading.same_evidence else 'NOT the same'} as stated.")
        if not reading.same_rules:
            self.stdout.write(f"Rulebook here {reading.report['rulebook']}, "
                              f"there {reading.said['rulebook']}.")
        for claim, there, here in reading.moved:
            self.stdout.write(f"{claim}: there “{there}”, here “{here or 'not judged'}”.")
        if not reading.moved:
            self.stdout.write("Verdicts: the same.")

    def bring_in(self, file, document, name):
        account = User.objects.filter(username=name, deleted_at=None).first()
        if account is None:
            raise CommandError(f"There is no account {name}.", returncode=BAD_INPUT)
        try:
            unit = import_unit(document, account)
        except DocumentError as error:
            raise refusal(str(file), error) from None
        self.stdout.write(f"Bench sheet {unit.pk} made. Pictures are named in it, not brought in.")
