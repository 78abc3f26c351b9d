"""What measured units teach the practice lines now, beside what is in force."""
from django.contrib.auth import get_user_model
from django.core.management.base import BaseCommand, CommandError

from teardowns.management.document_files import BAD_INPUT
from teardowns.management.reference_text import print_proposal
from teardowns.models import Unit
from teardowns.services.reassess_publications import reassess_slice
from teardowns.services.rebuild_reference_set import (
    activate_reference_set,
    moved_by,
    propose_reference_set,
)


class Command(BaseCommand):
    help = ("Fit the habits of the trade to the published units whose capability was measured, and "
            "say what would change. Nothing changes without --activate.")

    def add_arguments(self, parser):
        parser.add_argument("--activate", action="store_true",
                            help="put the set into force and assess every unit anew")
        parser.add_argument("--as", dest="username", metavar="USERNAME",
                            help="whose decision it is, for the log")

    def handle(self, *args, activate, username, **options):
        author = self.account(username)
        proposal = propose_reference_set()
        self.stdout.write(print_proposal(proposal, list(moved_by(proposal))))
        if not activate:
            return
        if proposal.says_nothing:
            self.stdout.write("Nothing was learned, so nothing was activated.")
            return
        if activate_reference_set(proposal.stored, author):
            self.stdout.write(f"{proposal.stored.version} is in force now.")
        self.stdout.write(f"{self.assess_anew()} units assessed.")

    def account(self, username):
        if not username:
            return None
        account = get_user_model().objects.filter(username=username).first()
        if account is None:
            raise CommandError(f'There is no account "{username}"; give the name of one with '
                               "--as.", returncode=BAD_INPUT)
        return account

    def assess_anew(self):
        last: int | None = 0
        while last is not None:
            last = reassess_slice(last)
        return Unit.objects.count()
