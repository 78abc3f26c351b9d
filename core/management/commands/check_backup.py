"""Read every byte of a backup and say whether it is what was written."""
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from core.backup.bags import Damaged, bags, check_bag
from core.management.progress import Bar


def bag_at(path):
    """The bag at the path, or the newest below it."""
    below = bags(path)
    if below:
        return below[-1]
    if not path.is_dir():
        raise CommandError(f"There is no folder {path}.")
    return path


class Command(BaseCommand):
    help = ("Read every byte of a backup and name the first file that is not what was written. "
            "Needs neither the database nor the settings of the site.")
    requires_system_checks: list[str] = []

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path, metavar="FOLDER",
                            help="a bag, or the folder of bags, of which the newest is taken")
        parser.add_argument("--digest", metavar="SHA256",
                            help="what the backup printed: a whole bag that was swapped shows too")

    def handle(self, *args, folder, digest, **options):
        bag = bag_at(folder)
        try:
            found = check_bag(bag, Bar(self.stderr))
        except Damaged as error:
            raise CommandError(f"{bag.name}: {error}") from error
        if digest and digest != found:
            raise CommandError(f"{bag.name} is whole, and is not the backup with that digest.")
        self.stdout.write(f"{bag.name} is whole: {found}")
