"""Assess every unit and every public version under the rules in force."""
import time

from django.core.management.base import BaseCommand
from django.db import connection
from django_q.tasks import async_task

from teardowns.models import StandingChange, Unit
from teardowns.services.active_rulebook import active_rulebook
from teardowns.services.reassess_publications import SLICE, reassess_slice

# s between two slices. SQLite has no queue of writers: one that waits asks again, at last every
# 0.1 s, and would hardly ever find a moment between slices that follow each other at once.
TURN = 0.15


class Command(BaseCommand):
    help = ("Assess every unit and every public version under the rules in force, some at a time. "
            "Run it after an upgrade that brought another rulebook. It is safe to break off, to go "
            "on with --after, and to run twice.")

    def add_arguments(self, parser):
        parser.add_argument("--after", type=int, default=0, metavar="NUMBER",
                            help="go on after the unit of this number")
        parser.add_argument("--queue", action="store_true",
                            help="leave it to the workers and return at once")

    def handle(self, *args, after, queue, **options):
        if queue:
            async_task("teardowns.jobs.reassess_all", after)
            self.stdout.write("Queued: the workers assess every unit, some at a time.")
            return
        newest = StandingChange.objects.order_by("pk").last()
        self.go_on(after)
        moved = StandingChange.objects.filter(pk__gt=newest.pk if newest else 0).count()
        self.stdout.write(f"All units stand under rulebook {active_rulebook().version}; the words "
                          f"or the level of {moved} moved.")

    def go_on(self, after):
        total = Unit.objects.count()
        while (last := reassess_slice(after, SLICE)) is not None:
            done = Unit.objects.filter(pk__lte=last).count()
            self.stdout.write(f"{done} of {total} done, up to unit {last}.")
            after = last
            time.sleep(TURN if connection.vendor == "sqlite" else 0)
