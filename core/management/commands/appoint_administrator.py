"""The first administrator, by whoever has the machine: there are no accounts to begin with."""
from django.core.management.base import BaseCommand, CommandError
from django.db import transaction

from core.accounts.models import Role, User
from core.audit.record import record


class Command(BaseCommand):
    help = ("Make an account that signed up on the site and confirmed its address the "
            "administrator. No password is asked for or made.")

    def add_arguments(self, parser):
        parser.add_argument("name", help="the account's username")
        parser.add_argument("--another", action="store_true",
                            help="although there is an administrator already")

    @transaction.atomic
    def handle(self, *args, name, another, **options):
        user = User.objects.select_for_update().filter(
            username__iexact=name, is_active=True).first()
        if user is None:
            raise CommandError(f"There is no account “{name}”. Sign up on the site first.")
        require_fit(user)
        require_first(another)
        before, user.role = user.role, Role.ADMINISTRATOR
        user.save(update_fields=["role"])
        record(None, "administrator_appointed", subject=f"user/{user.pk}", before=before)
        self.stdout.write(self.style.SUCCESS(
            f"{user.username} is an administrator now. The site asks for a second factor before "
            "the role counts."))


def require_fit(user):
    if user.role == Role.ADMINISTRATOR:
        raise CommandError(f"{user.username} is an administrator already.")
    if not user.is_verified:
        raise CommandError(
            f"{user.username} has not confirmed the e-mail address. Open the link that was sent; "
            "without a mail server it lies in the folder “mail” of the data directory.")
    if user.is_suspended:
        raise CommandError(f"{user.username} is suspended.")


def require_first(another):
    names = User.objects.filter(role=Role.ADMINISTRATOR, is_active=True).values_list(
        "username", flat=True)
    if names and not another:
        raise CommandError(
            f"There is an administrator already: {', '.join(names)}. They can appoint others on "
            "the site; to do it here all the same, add --another.")
