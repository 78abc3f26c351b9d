"""Make what a search looks into anew, or say what of it is not in line with what is public."""
from django.core.management.base import BaseCommand, CommandError
from django.db import connection

from teardowns.search_engines import install, missing, tidy
from teardowns.services.index_words import differing_words, rebuild_words


class Command(BaseCommand):
    help = ("Write the words of every public unit, part and family anew for the search, a few "
            "hundred at a time. It is safe to break off and to run again; the site stays up.")

    def add_arguments(self, parser):
        parser.add_argument("--check", action="store_true",
                            help="change nothing, say what differs, and exit 1 if anything does")

    def handle(self, *args, check, **options):
        return self.check_all() if check else self.rebuild()

    def rebuild(self):
        if lacking := missing(connection):
            install(connection, lacking)
        for done, count in rebuild_words():
            self.stdout.write(f"{done} of {count} numbers looked at.")
        tidy(connection)
        self.stdout.write("The search is in line with what is public.")

    def check_all(self):
        lacking = [f"The database lacks {name} of the index." for name in missing(connection)]
        for done, count, found in differing_words():
            lacking += found
            self.stdout.write(f"{done} of {count} numbers compared, {len(lacking)} differ.")
        if lacking:
            raise CommandError("\n".join([*lacking, "Run index_words without --check."]))
        self.stdout.write("The search is in line with what is public.")
