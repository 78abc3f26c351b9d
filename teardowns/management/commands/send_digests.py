"""Send the e-mails with what is new."""
from django.core.management.base import BaseCommand

from teardowns.services.send_digests import send_digests


class Command(BaseCommand):
    help = ("Send one e-mail to each person who was told something since their last one. Run it "
            "daily; it is safe to repeat, and sends again what could not be sent.")

    def handle(self, *args, **options):
        outcome = send_digests()
        self.stdout.write(f"{outcome.sent} sent, {outcome.failed} not sent.")
