"""Say what a deployment lacks, each finding with its remedy."""
import json
from dataclasses import asdict

from django.core.management.base import BaseCommand, CommandError
from django.utils.module_loading import autodiscover_modules

from core.doctor.findings import CHECKS, Level, examine

MARKS = {Level.GOOD: "  good   ", Level.NOTE: "  note   ", Level.WARNING: "WARNING  ",
         Level.FAULT: "FAULT    "}


class Command(BaseCommand):
    help = ("Examine all that the site needs to run here: database, storages, disk, keys, HTTPS, "
            "mail, workers, log, search, fonts, clock. Nothing is changed. Exits with 1 when there "
            "is a fault, with --strict also when there is a warning.")
    requires_system_checks: list[str] = []        # it says itself what is wrong, in more words

    def add_arguments(self, parser):
        autodiscover_modules("doctor")
        parser.add_argument("subjects", nargs="*", metavar="SUBJECT",
                            help=f"only these of: {', '.join(known_subjects())}")
        parser.add_argument("--json", action="store_true", help="findings as one JSON list")
        parser.add_argument("--strict", action="store_true", help="a warning counts as a fault")

    def handle(self, *args, subjects, json: bool, strict, **options):
        if unknown := set(subjects) - set(known_subjects()):
            raise CommandError(f"There is no subject {', '.join(sorted(unknown))}. There are: "
                               f"{', '.join(known_subjects())}.")
        found = list(examine(subjects))
        if json:
            self.stdout.write(as_json(found))
        else:
            self.print(found)
        bad = {Level.FAULT, Level.WARNING} if strict else {Level.FAULT}
        if any(each.level in bad for each in found):
            raise SystemExit(1)

    def print(self, found):
        subject = None
        for each in found:
            if each.subject != subject:
                subject = each.subject
                self.stdout.write(f"\n{subject}")
            self.stdout.write(f"{self.coloured(each.level)}{each.said}")
            if each.remedy:
                self.stdout.write(f"         → {each.remedy}")
        counts = {level: sum(each.level == level for each in found) for level in Level}
        self.stdout.write("\n" + ", ".join(f"{count} {level}" for level, count in counts.items()))

    def coloured(self, level):
        styles = {Level.GOOD: self.style.SUCCESS, Level.WARNING: self.style.WARNING,
                  Level.FAULT: self.style.ERROR}
        return styles[level](MARKS[level]) if level in styles else MARKS[level]


def known_subjects():
    return sorted({each.subject for each in CHECKS})


def as_json(found):
    return json.dumps([asdict(each) for each in found], ensure_ascii=False, indent=1)
