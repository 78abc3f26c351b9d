"""Back up the database and all files into a folder, while the site runs."""
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError

from core.backup.back_up import Busy, back_up, drop_old
from core.backup.bags import Damaged
from core.backup.databases import NotDone
from core.management.progress import Bar


class Command(BaseCommand):
    help = ("Back up the database and all files into FOLDER, as a bag named by the moment; the "
            "site may run meanwhile. Files that the newest bag there holds already take no room "
            "again. SECRET_KEY and settings are not in it: keep them elsewhere.")

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path, metavar="FOLDER",
                            help="on another disk; it is made where it does not exist")
        parser.add_argument("--whole", action="store_true",
                            help="read every file again, also those that the newest bag has")
        parser.add_argument("--keep", type=int, metavar="NUMBER",
                            help="afterwards remove all but the newest NUMBER bags")

    def handle(self, *args, folder, whole, keep, **options):
        if keep is not None and keep < 1:
            raise CommandError("--keep takes the number of bags that stay, 1 or more.")
        try:
            made = back_up(folder, Bar(self.stderr), whole=whole)
        except (Busy, NotDone, Damaged, DatabaseError, OSError) as error:
            raise CommandError(f"No backup was made. {error}") from error
        gone = f"; {made.gone} went away meanwhile" if made.gone else ""
        self.stdout.write(f"{made.bag}: the database and {made.files} files, {made.copied} of "
                          f"them new{gone}.\nTo note down elsewhere:\n"
                          f"  {made.bag.name} {made.digest}\n  end of the log {made.witness}")
        for bag in drop_old(folder, keep) if keep else ():
            self.stdout.write(f"Removed {bag.name}.")
