"""Assess every unit and every public version under the rules in force."""
import os

from django.core.management.base import BaseCommand, CommandError
from django_q.tasks import async_task

from teardowns.models import StandingChange, Unit
from teardowns.services.active_rulebook import active_rulebook
from teardowns.services.reassess_together import BrokeOff, reassess_together


class Command(BaseCommand):
    help = ("Assess every unit and every public version under the rules in force, some at a time. "
            "Run it after an upgrade that brought another rulebook. It is safe to break off, to go "
            "on with --after, and to run twice.")

    def add_arguments(self, parser):
        parser.add_argument("--after", type=int, default=0, metavar="NUMBER",
                            help="go on after the unit of this number")
        parser.add_argument("--processes", type=int, default=all_but_one(), metavar="COUNT",
                            help="how many work at the same time; here %(default)s: all "
                                 "processors but one, which is left to whoever reads and writes "
                                 "meanwhile, and 1 at least")
        parser.add_argument("--queue", action="store_true",
                            help="leave it to the workers and return at once")

    def handle(self, *args, after, queue, processes, **options):
        if processes < 1:
            raise CommandError("--processes takes how many work at the same time, 1 or more.")
        if queue:
            async_task("teardowns.jobs.reassess_all", after)
            self.stdout.write("Queued: the workers assess every unit, some at a time.")
            return
        newest = StandingChange.objects.order_by("pk").last()
        self.go_on(after, processes)
        moved = StandingChange.objects.filter(pk__gt=newest.pk if newest else 0).count()
        self.stdout.write(f"All units stand under rulebook {active_rulebook().version}; the words "
                          f"or the level of {moved} moved.")

    def go_on(self, after, processes):
        total = Unit.objects.count()
        try:
            for until in reassess_together(after, total, processes):
                done = Unit.objects.filter(pk__lte=until).order_by("pk")
                after = done.values_list("pk", flat=True).last() or 0
                self.stdout.write(f"{done.count()} of {total} done, up to unit {after}.")
        except BrokeOff:
            raise CommandError("One of the processes ended before its work was done; go on with "
                               f"--after {after}.") from None


def all_but_one() -> int:
    return max(1, len(os.sched_getaffinity(0)) - 1)
