"""Rebuild what public units are compared by, and look for units whose boards look alike."""
from django.core.management.base import BaseCommand

from teardowns.models import Likeness, Unit
from teardowns.services.find_likenesses import find_likenesses
from teardowns.services.index_likeness import SLICE, count_words, index_likeness


class Command(BaseCommand):
    help = ("Rebuild the index of what public units are compared by, count how rare each thing is, "
            "and look for units whose boards look alike. Run it after an upgrade that compares "
            "otherwise. It is safe to break off and to run twice.")

    def add_arguments(self, parser):
        parser.add_argument("--all", action="store_true",
                            help="look for the like of every unit, not of those alone that moved")
        parser.add_argument("--index-only", action="store_true",
                            help="leave the looking to the workers")

    def handle(self, *args, index_only, **options):
        moved = sum(index_likeness(pks, anew=True) for pks in self.slices())
        count_words()
        self.stdout.write(f"{moved} of {Likeness.objects.count()} units are compared by something "
                          "else than before.")
        if options["all"]:
            Likeness.objects.update(is_new=True)
        if not index_only:
            self.look()

    def slices(self):
        """Every unit that is or was public, in the order of its number."""
        pks = list(Unit.objects.filter(publication__isnull=False).order_by("pk").values_list(
            "pk", flat=True))
        return (pks[start:start + SLICE] for start in range(0, len(pks), SLICE))

    def look(self):
        looked = 0
        while done := find_likenesses():
            looked += done
            self.stdout.write(f"Looked for the like of {looked} units.")
