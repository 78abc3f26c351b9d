"""After SECRET_KEY was changed: bring jobs and second factors under the new key."""
from cryptography.fernet import InvalidToken
from django.core.management.base import BaseCommand, CommandError

from core.rotate_key import lock_second_factors_anew, sign_jobs_anew


class Command(BaseCommand):
    help = ("Run it after SECRET_KEY was changed and the former one stands in "
            "SECRET_KEY_FALLBACKS, while no worker runs: jobs that wait are signed anew, second "
            "factors locked anew. It is safe to repeat.")

    def handle(self, *args, **options):
        try:
            factors = lock_second_factors_anew()
        except InvalidToken:
            raise CommandError("A second factor is locked with a key that neither SECRET_KEY nor "
                               "SECRET_KEY_FALLBACKS names. Put that key into "
                               "SECRET_KEY_FALLBACKS and run this again; nothing was changed."
                               ) from None
        signed, lost = sign_jobs_anew()
        self.stdout.write(f"{factors} second factors locked and {signed} jobs signed with the key "
                          "in force.")
        if lost:
            raise CommandError(f"{lost} jobs were signed with a key that neither SECRET_KEY nor "
                               "SECRET_KEY_FALLBACKS names.")
