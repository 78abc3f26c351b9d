"""Units of the database as files of the exchange form."""
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from teardowns.exchange.document import write_document
from teardowns.models import Unit
from teardowns.services.beside_units import licences_beside, replies_beside
from teardowns.services.export_unit import unit_documents

SLICE = 200


class Command(BaseCommand):
    help = "Write units as unit documents, one file each, with their replies and terms."

    def add_arguments(self, parser):
        parser.add_argument("ids", nargs="*", type=int, help="numbers of the units; none means all")
        parser.add_argument("--to", required=True, type=Path, help="folder to write to")

    def handle(self, *args, ids, to, **options):
        units = Unit.objects.order_by("pk")
        if ids:
            units = units.filter(pk__in=ids)
            if missing := set(ids) - set(units.values_list("pk", flat=True)):
                raise CommandError(f"There is no unit {', '.join(map(str, sorted(missing)))}.",
                                   returncode=2)
        pks = list(units.values_list("pk", flat=True))
        try:
            to.mkdir(parents=True, exist_ok=True)
            for start in range(0, len(pks), SLICE):
                self.write(Unit.objects.filter(pk__in=pks[start:start + SLICE]).order_by("pk"), to)
        except OSError as error:
            raise CommandError(f"{error.filename or to}: cannot be written ({error.strerror}); "
                               "give a folder of yours with --to", returncode=2) from None
        self.stdout.write(f"{len(pks)} units written to {to}")

    def write(self, units, to):
        pks = [unit.pk for unit in units]
        licences, replies = licences_beside(pks), replies_beside(pks)
        for unit, document in zip(units, unit_documents(units), strict=True):
            document |= {"licences": licences[unit.pk], "replies": replies[unit.pk]}
            path = to / f"unit-{unit.pk}.json"
            path.write_text(write_document(document), encoding="utf-8")
