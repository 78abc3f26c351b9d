"""Restore a backup into an empty database and empty storages."""
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError

from core.backup.bags import Damaged
from core.backup.databases import NotDone
from core.backup.erasures import LIST
from core.backup.restore import NotRestored, restore
from core.management.commands.check_backup import bag_at
from core.management.progress import Bar

OTHER_KEY = ("SECRET_KEY is not the one that the backup was made under. Put that one into "
             "SECRET_KEY_FALLBACKS, or second factors cannot be read and every trusted person has "
             "to set up another.")


class Command(BaseCommand):
    help = ("Restore a backup into the empty database and storages that the settings name. Every "
            "byte is checked first; afterwards the schema is brought up to this release, all are "
            "signed out, and what was erased since is erased again.")
    requires_system_checks: list[str] = []

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path, metavar="FOLDER",
                            help="a bag, or the folder of bags, of which the newest is taken")
        parser.add_argument("--erasures", type=Path, metavar="FILE",
                            help=f"list of what was erased ({LIST} beside the bags)")

    def handle(self, *args, folder, erasures, **options):
        bag = bag_at(folder)
        try:
            done = restore(bag, Bar(self.stderr), erasures or bag.parent / LIST)
        except Damaged as error:
            raise CommandError(f"Nothing was restored. {bag.name}: {error}") from error
        except (NotRestored, NotDone, DatabaseError, OSError) as error:
            raise CommandError(str(error)) from error
        self.stdout.write(f"{bag.name} is restored: {done.rows} rows, {done.files} files, each as "
                          f"it was backed up; {done.erased} erasures were repeated.")
        for each in done.to_erase:
            self.stderr.write(f"Erase by hand: {each}")
        if not done.same_key:
            self.stderr.write(OTHER_KEY)
        self.stdout.write("Now run manage.py collectstatic --no-input and manage.py doctor.")
