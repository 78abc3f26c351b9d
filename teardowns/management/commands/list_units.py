"""Bring the listing of public units in line with what is public, or say where it is not."""
from django.core.management.base import BaseCommand, CommandError

from teardowns.models import ListedUnit
from teardowns.services.list_units import list_slice, listing_differences

NAMED = 20


class Command(BaseCommand):
    help = ("Bring the listing of public units, which lists and searches read, in line with what "
            "is public. Run it once after an upgrade that brought the listing, or whenever --check "
            "finds something. It is safe to break off and to run twice.")

    def add_arguments(self, parser):
        parser.add_argument("--check", action="store_true",
                            help="change nothing; name what differs, and exit with 1 if anything")

    def handle(self, *args, check, **options):
        if check:
            self.check_listing()
            return
        last: int | None = 0
        while (last := list_slice(last)) is not None:
            self.stdout.write(f"Listed up to unit {last}.")
        count = ListedUnit.objects.listed().count()
        self.stdout.write(f"{count} public {'unit is' if count == 1 else 'units are'} listed.")

    def check_listing(self):
        found = list(listing_differences())
        for pk, columns in found[:NAMED]:
            self.stdout.write(f"Unit {pk}: {', '.join(columns)}")
        if len(found) > NAMED:
            self.stdout.write(f"and {len(found) - NAMED} more")
        if found:
            raise CommandError("The listing is not what is public. Run manage.py list_units.")
        self.stdout.write("The listing says what is public.")
