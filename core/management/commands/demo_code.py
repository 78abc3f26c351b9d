"""The second factor of a demo account, which has no phone."""
import time

from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal.auth import format_hotp_value, hotp_value
from django.core.management.base import BaseCommand, CommandError

from core.accounts.services.prepare_account import DEMO_DOMAIN

PERIOD = 30     # s; RFC 6238, 5.2


class Command(BaseCommand):
    help = "Print the code that a demo account types as its second factor."

    def add_arguments(self, parser):
        parser.add_argument("name", help="a demo account, such as rikke")

    def handle(self, *args, name, **options):
        app = Authenticator.objects.filter(
            type=Authenticator.Type.TOTP, user__username=name,
            user__email__endswith=f"@{DEMO_DOMAIN}").first()
        if app is None:
            raise CommandError(f"“{name}” is no demo account with a second factor.")
        counter, gone = divmod(int(time.time()), PERIOD)
        code = format_hotp_value(hotp_value(get_adapter().decrypt(app.data["secret"]), counter))
        self.stdout.write(f"{code}   good for {PERIOD - gone} s more, and once")
