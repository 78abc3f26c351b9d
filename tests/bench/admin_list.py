"""The list of units beside Django's admin and beside plain queries over the same tables.

python -m tests.bench.admin_list [rounds, default 10]

Over the units of DATABASE_URL or UNDERPLATE_DATA_DIR (tests.bench.many_units makes them). What a
maintainer would reach for first: a ModelAdmin of the public versions with filters and a search. Its
view alone is asked, without middleware, our page with all of it. Exits 1 when a bar is missed.
"""
from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from urllib.parse import urlencode

import django

os.environ["DJANGO_SETTINGS_MODULE"] = "tests.bench.with_admin"
django.setup()

from django.contrib import admin  # noqa: E402
from django.db import connection  # noqa: E402
from django.test import RequestFactory  # noqa: E402
from django.urls import reverse  # noqa: E402

from core.accounts.models import User  # noqa: E402
from teardowns.models import Publication  # noqa: E402
from teardowns.services.browse import browse  # noqa: E402
from tests.bench.browse import (  # noqa: E402
    asking,
    chosen,
    plain_files,
    plain_list,
    quickest,
    told,
    with_page,
)

AS_QUICK = 1 / 20                   # the bar: 20 times as quick as the admin, and as plain queries
SLOW_ROUNDS = 2


@admin.register(Publication)
class PublicationAdmin(admin.ModelAdmin):
    list_display = ("title", "maker", "model", "kind", "channel", "published_at", "verdict", "risk")
    list_filter = ("standing__verdict", "channel", "kind")
    search_fields = ("title", "maker", "model", "words")
    list_select_related = ("standing",)
    list_per_page = 25

    def get_queryset(self, request):
        return super().get_queryset(request).filter(
            current_for__status="published", current_for__quarantined_at=None).defer(
            "document", "frozen", "standing__payload")

    @admin.display(ordering="standing__verdict")
    def verdict(self, publication):
        return publication.standing.verdict

    @admin.display(ordering="standing__risk")
    def risk(self, publication):
        return publication.standing.risk


@dataclass(frozen=True)
class Question:
    name: str
    ours: dict[str, str]
    theirs: dict[str, str]


def main(rounds: int = 10) -> int:
    plain_files()
    print(f"{connection.vendor}, {browse({}).total} public units, load {os.getloadavg()[0]:.1f}")
    sound = [beside_admin(question, rounds) for question in questions()]
    list_page, = quickest([asking(reverse("unit_list"))], rounds)
    plain, = quickest([lambda: plain_list(chosen())], 1)
    sound.append(told("our page beside plain queries alone", list_page / plain, AS_QUICK,
                      f"{1e3 * list_page:.1f} ms against {1e3 * plain:.0f} ms"))
    return int(not all(sound))


def questions() -> list[Question]:
    three = chosen()
    kind = max(browse({}).counts["kind"].items(), key=lambda one: one[1])[0]
    ours = {"verdict": three["verdict"], "channel": three["channel"], "kind": kind}
    theirs = {"standing__verdict": three["verdict"], "channel__exact": three["channel"],
              "kind__exact": kind}
    word = with_page().controller
    return [Question("no choice", {}, {}), Question("three choices", ours, theirs),
            Question("a search", {"q": word}, {"q": word})]


def beside_admin(question: Question, rounds: int) -> bool:
    ask = asking(f"{reverse('unit_list')}?{urlencode(question.ours)}")
    ours, = quickest([ask], rounds)
    theirs, = quickest([lambda: changelist(question.theirs)], SLOW_ROUNDS)
    return told(f"{question.name}, beside the admin", ours / theirs, AS_QUICK,
                f"{1e3 * ours:.1f} ms against {1e3 * theirs:.0f} ms, {theirs / ours:.0f} times as "
                "quick")


def changelist(query: dict[str, str]):
    request = RequestFactory().get(reverse("admin:teardowns_publication_changelist"), query)
    request.user = User(username="bench", is_superuser=True, is_active=True)
    request.csp_nonce = ""
    answer = admin.site.get_model_admin(Publication).changelist_view(request)
    assert answer.status_code == 200, answer
    return answer.render()


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
