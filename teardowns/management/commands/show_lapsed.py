"""Show again what was hidden at once and nobody confirmed within a day."""
from django.core.management.base import BaseCommand

from teardowns.services.hide_now import lapse_hidden


class Command(BaseCommand):
    help = ("Show again what was hidden at once for personal data and nobody confirmed within 24 "
            "hours. Run it every few minutes; it is safe to repeat.")

    def handle(self, *args, **options):
        self.stdout.write(f"{lapse_hidden()} shown again.")
