"""Forget what is kept for a time only: answers to forms, and limits that have long been full."""
from django.core.management.base import BaseCommand

from core.buckets import sweep_buckets
from core.once import sweep_answers


class Command(BaseCommand):
    help = __doc__

    def handle(self, *args, **options):
        self.stdout.write(f"{sweep_answers()} answers and {sweep_buckets()} limits forgotten.")
