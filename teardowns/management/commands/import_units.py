"""Unit documents into the database, as drafts of a contributor."""
from django.contrib.auth import get_user_model
from django.core.management.base import BaseCommand, CommandError
from django.db import transaction

from teardowns.exchange.document import DocumentError
from teardowns.management.document_files import BAD_INPUT, document_of, refusal
from teardowns.services.assess_units import assess_units
from teardowns.services.import_unit import import_unit


class Command(BaseCommand):
    help = "Bring unit documents in as drafts: all of them, or none when one cannot be taken."

    def add_arguments(self, parser):
        parser.add_argument("files", nargs="+", help='unit documents; "-" for standard input')
        parser.add_argument("--as", required=True, dest="username", metavar="USERNAME",
                            help="the contributor whose drafts they become")

    def handle(self, *args, files, username, **options):
        contributor = get_user_model().objects.filter(username=username).first()
        if contributor is None:
            raise CommandError(f'There is no account "{username}"; give the name of one with --as.',
                               returncode=BAD_INPUT)
        documents = [(file, document_of(file)) for file in files]
        with transaction.atomic():
            units = [self.taken(file, document, contributor) for file, document in documents]
        assess_units(units)
        for unit in units:
            self.stdout.write(f"{unit.pk}  {unit.title}")

    def taken(self, file, document, contributor):
        try:
            return import_unit(document, contributor)
        except DocumentError as error:
            raise refusal(file, error) from None
