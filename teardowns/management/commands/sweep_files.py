"""Remove stored files that no row names, and name files that are missing."""
from django.core.management.base import BaseCommand

from teardowns.services.sweep_files import sweep_files


class Command(BaseCommand):
    help = ("Remove stored files of photos and recordings that nothing names and that are older "
            "than a day, and uploads that nobody went on with. Run it daily; it is safe to repeat.")

    def handle(self, *args, **options):
        swept = sweep_files()
        self.stdout.write(f"{swept.removed} removed, {len(swept.missing)} missing.")
        for name in swept.missing:
            self.stderr.write(f"Missing: {name}")
