"""Invented accounts comment, report and hand in all at once: what moves, and what becomes public.

python -m tests.bench.crowds [accounts] [threads]

On the database of DATABASE_URL, in a scratch database that is removed afterwards. Exits 1 unless
the record that all of them aim at stands as it stood, and nothing they wrote is anywhere in public.
"""
from __future__ import annotations

import sys
from concurrent.futures import ThreadPoolExecutor

from django.test.utils import setup_test_environment

from tests.bench.concurrency import at_once, scratch_database  # sets Django up for what follows

# isort: split
from django.db import connection
from django.test import Client
from django.utils import timezone

from core.accounts.models import Role, User
from core.audit.models import Entry
from teardowns.models import (
    Comment,
    HiddenNow,
    Notice,
    PhotoDerivative,
    Report,
    Status,
    Submission,
    Unit,
)
from teardowns.services.receive_report import receive_report
from teardowns.services.write_comment import write_comment
from tests.corrections import public_unit
from tests.handing_in import hand_in, with_plate

ACCOUNTS, THREADS = 500, 20
SPAM = "Best price, best charger, click here"
PUBLIC = ("/", "/units/", "/units/?q=price", "/units/list.csv", "/feeds/newest.atom",
          "/feeds/serious.atom", "/log/", "/units/{}/", "/units/{}/discussion/",
          "/units/{}/document.json", "/api/v1/units", "/api/v1/units/{}/comments",
          "/api/v1/search?q=price")


def main(accounts=ACCOUNTS, threads=THREADS):
    with scratch_database(), ThreadPoolExecutor(threads) as pool:
        unit = public_unit(User.objects.create_user("alice"))
        PhotoDerivative.objects.create(photo=unit.photos.first(), path="drill", width=1, height=1)
        print(f"{connection.vendor}, {accounts} accounts by {threads} threads, one public record")
        crowd, before = new_accounts(accounts), shown(unit)
        sound = [comments(pool, crowd, unit), reports(pool, crowd, unit), hand_ins(pool, crowd),
                 unmoved(unit, before), unseen(unit)]
        list(pool.map(lambda _: connection.close(), range(threads)))
    return int(not all(sound))


def new_accounts(accounts):
    """With confirmed addresses and nothing published."""
    now = timezone.now()
    return User.objects.bulk_create(
        User(username=f"puppet-{n}", email=f"puppet-{n}@crowd.example", email_verified_at=now)
        for n in range(accounts))


def shown(unit):
    """All that everybody is told of the record, and the page that tells it."""
    unit.refresh_from_db()
    page = Client().get(f"/units/{unit.pk}/").content.decode()
    version = unit.publication
    return (unit.status, version.number, version.assessment.verdict, version.standing.payload,
            page.partition("<main")[2])


def comments(pool, crowd, unit):
    refs = ("", "component/bulk-1", "measurement/held")

    def comment(number):
        write_comment(author=crowd[number], thing=unit, text=SPAM, ref=refs[number % len(refs)])

    at_once(pool, comment, range(len(crowd)))
    written, readable = Comment.objects.count(), Comment.objects.readable().count()
    entries = Entry.objects.filter(action="comment_written").count()
    told = Notice.objects.filter(kind="comment").count()
    print(f"comments: {written} of {len(crowd)} kept, {readable} readable, "
          f"{entries} audit entries, {told} people told")
    return written == entries == len(crowd) and not readable and not told


def reports(pool, crowd, unit):
    """Half of the record, half of a photo; most say that it shows personal data."""
    photo = unit.photos.first()

    def report(number):
        receive_report(reporter=crowd[number], text="Take it down.",
                       about=f"photo/{photo.pk}" if number % 2 else f"unit/{unit.pk}",
                       code="personal_data" if number % 3 else "spam")

    at_once(pool, report, range(len(crowd)))
    received, hidden = Report.objects.count(), HiddenNow.objects.count()
    print(f"reports: {received} of {len(crowd)} kept, {hidden} things hidden")
    return received == len(crowd) and not hidden


def hand_ins(pool, crowd):
    def one(person):
        sheet = Unit.objects.create(contributor=person, title=f"{SPAM} {person.pk}", notes=SPAM)
        hand_in(with_plate(sheet, person), person)

    at_once(pool, one, crowd)
    kept = Submission.objects.filter(unit__status=Status.SUBMITTED).count()
    public = Unit.objects.published().filter(contributor__in=crowd).count()
    print(f"hand-ins: {kept} of {len(crowd)} wait for a reviewer, {public} public")
    return kept == len(crowd) and not public


def unmoved(unit, before):
    same = shown(unit) == before
    print("the record:", "status, verdict, numbers and page as before" if same else "MOVED")
    return same


def unseen(unit):
    """Of the addresses that everybody reads, those that show what the crowd wrote."""
    seen, unread = found_on(unit)
    write_comment(author=User.objects.create_user(
        "rita", role=Role.REVIEWER, email_verified_at=timezone.now()), thing=unit, text=SPAM)
    control, _ = found_on(unit)
    print(f"the crowd's words are on {len(seen)} of {len(PUBLIC)} public addresses "
          f"{' '.join(seen + unread)}; the same words of a reviewer on {len(control)}")
    return not seen and not unread and bool(control)


def found_on(unit):
    answers = {each: Client().get(each.format(unit.pk)) for each in PUBLIC}
    return ([each for each, answer in answers.items() if SPAM in _text(answer)],
            [each for each, answer in answers.items() if answer.status_code != 200])


def _text(answer):
    content = b"".join(answer.streaming_content) if answer.streaming else answer.content
    return content.decode()


if __name__ == "__main__":
    setup_test_environment()
    sys.exit(main(*map(int, sys.argv[1:])))
