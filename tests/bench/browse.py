"""Pages over many public units, beside the same pages without a query and beside plain queries.

python -m tests.bench.browse [rounds]

On the database of DATABASE_URL or UNDERPLATE_DATA_DIR, filled by tests.bench.many_units before.
Every page is asked through all of the middleware, in turns with its baselines, and the quickest
of each are compared, in time of the processor. Exits 1 when a bar is missed.
"""
from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.conf import settings  # noqa: E402
from django.core.paginator import Paginator  # noqa: E402
from django.db import connection  # noqa: E402
from django.db.models import Count, Q  # noqa: E402
from django.http import HttpResponse  # noqa: E402
from django.template.loader import get_template  # noqa: E402
from django.test import Client  # noqa: E402
from django.test.utils import (  # noqa: E402
    CaptureQueriesContext,
    setup_test_environment,
    teardown_test_environment,
)
from django.urls import get_resolver, reverse  # noqa: E402

from teardowns.models import Likeness, ListedUnit, Publication  # noqa: E402
from teardowns.services.browse import (  # noqa: E402
    _packs,
    _read_all,
    browse,
    pack_listing,
    public_index,
)
from teardowns.services.search import search  # noqa: E402
from teardowns.views import kept_pages  # noqa: E402
from teardowns.views.shared_pages import SharedPages  # noqa: E402

ROUNDS = 25
ON_POSTGRESQL = connection.vendor == "postgresql"
# Our own bars. BARE: times the page without queries.
BARE = 2.0 if ON_POSTGRESQL else 1.5
LIST_ANEW = 2.5 if ON_POSTGRESQL else 2.0
UNIT_PAGE = 3.0
MADE_ANEW = 5.0                            # a page that nobody asked for since it changed
COMPARISON = 3.0                           # times one unit's page
SEARCH = 1 / 3
DEEP = 1.5                                 # page 2 000 beside page 1
PLAIN = 20.0                               # times as fast as plain queries over the same tables
DEPTH = 2000                               # pages


@dataclass(frozen=True)
class Page:
    name: str
    address: str
    bar: float                             # times the page without queries, at most
    is_new: bool = False                   # nobody asked for it since something changed


def main(rounds: int = ROUNDS) -> int:
    units = ListedUnit.objects.listed().count()
    if units < 1000:
        raise SystemExit("This database holds few units: fill one by tests.bench.many_units.")
    plain_files()
    pack_listing()
    print(f"{connection.vendor}, {units} public units, the quickest of {rounds} rounds in turns, "
          f"load {os.getloadavg()[0]:.1f}")
    first_page()
    sound = [beside_bare(page, rounds) for page in pages(units)]
    sound += [deep(units, rounds), against_plain(rounds), searching(rounds)]
    sound += [comparison(rounds, is_new) for is_new in (False, True)]
    own_share(rounds)
    return int(not all(sound))


def plain_files() -> None:
    """Static files need not be collected for this, and a search may be asked for at any rate."""
    settings.ALLOWED_HOSTS = ["*"]
    settings.SEARCHES = 10**9
    kept_pages.shared = SharedPages(places=1)       # so that it is forgotten in no time
    settings.STORAGES = settings.STORAGES | {"staticfiles": {
        "BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}}


def first_page() -> None:
    """What a process reads before its first list: the kept index, or every row."""
    for words, reads in (("the kept index", _packs.kept), ("every row", _read_all)):
        begun = time.process_time(), time.perf_counter()
        reads()
        print(f"first page of a process, out of {words}: {time.perf_counter() - begun[1]:.2f} s, "
              f"{time.process_time() - begun[0]:.2f} s of processor")
    browse({})


def pages(units: int) -> list[Page]:
    unit_list = reverse("unit_list")
    some = with_page()
    three = chosen()
    one = {"verdict": three["verdict"]}
    late = place(min(DEPTH, units // 50))
    return [
        Page("list, no choice", unit_list, BARE),
        Page("list, one facet", address(unit_list, one), BARE),
        Page("list, three facets", address(unit_list, three), BARE),
        Page("list, made anew", unit_list, LIST_ANEW, is_new=True),
        Page("list, three facets, made anew", address(unit_list, three), LIST_ANEW, is_new=True),
        Page("list, three facets, by gap", address(unit_list, three | {"sort": "gap"}), BARE),
        Page("list, a late page", address(unit_list, {"after": late}), BARE),
        Page("unit page", reverse("unit_detail", args=[some.pk]), UNIT_PAGE),
        Page("unit page, made anew", reverse("unit_detail", args=[some.pk]), MADE_ANEW,
             is_new=True),
    ]


def with_page(number: int = 7) -> ListedUnit:
    """A unit with a document of its own: those that were multiplied have none."""
    whole = Likeness.objects.order_by("-unit").values("unit")
    return ListedUnit.objects.listed().filter(unit__in=whole[:1000]).exclude(
        controller="").order_by("-pk")[number]


def chosen() -> dict[str, str]:
    """Of three facets the value that most units have."""
    counts = browse({}).counts
    return {facet: max(counts[facet], key=counts[facet].__getitem__)
            for facet in ("verdict", "connector", "channel")}


def address(path: str, choices: dict[str, str]) -> str:
    return f"{path}?{urlencode(choices)}"


def place(pages_before: int, sort: str = "newest") -> str:
    """Where the page after so many begins."""
    return browse({}, sort=sort, size=25 * max(pages_before, 1)).after


def quickest(works: list[Callable[[], Any]], rounds: int) -> list[float]:
    """The least time of each work in s, done in turns."""
    clock = processor_clock()
    taken: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for work, times in zip(works, taken, strict=True):
            begun = clock()
            work()
            times.append(clock() - begun)
    return [min(times) for times in taken]


def processor_clock() -> Callable[[], float]:
    """Time of the processor, so that what else runs on the machine does not count: of this process,
    and of the process that serves it on PostgreSQL. By the wall where that one is elsewhere."""
    if not ON_POSTGRESQL:
        return time.process_time
    with connection.cursor() as cursor:
        cursor.execute("SELECT pg_backend_pid()")
        spent = Path(f"/proc/{cursor.fetchone()[0]}/schedstat")
    if not spent.exists():
        return time.perf_counter
    return lambda: time.process_time() + int(spent.read_text().split()[0]) / 1e9


def asking(path: str) -> Callable[[], Any]:
    """Through the whole middleware, as somebody who is not signed in."""
    client = Client()

    def ask():
        answer = client.get(path)
        assert answer.status_code == 200, f"{path}: {answer.status_code}"
        return answer

    return ask


class Bare:
    """The same page with all that the view found already there: nothing is asked or worked out."""

    def __init__(self, path: str):
        setup_test_environment()                   # only so that the answer has its context
        forget_pages()
        answer = asking(path)()
        teardown_test_environment()
        self.template = get_template(answer.templates[0].name)
        self.context = {name: value for one in answer.context for layer in one.dicts
                        for name, value in layer.items() if name not in ("True", "False", "None")}
        self.pattern = pattern_of(path)
        self.ask = asking(path)

    def view(self, request, *args, **kwargs):
        context = {name: value for name, value in self.context.items()
                   if name not in ("request", "csrf_token", "block", "forloop")}
        return HttpResponse(self.template.render(context, request))

    def __call__(self):
        whole, self.pattern.callback = self.pattern.callback, self.view
        try:
            return self.ask()
        finally:
            self.pattern.callback = whole


def pattern_of(path: str):
    name = get_resolver().resolve(path.split("?")[0]).url_name
    return next(one for one in flat(get_resolver().url_patterns) if one.name == name)


def flat(patterns):
    for one in patterns:
        if hasattr(one, "url_patterns"):
            yield from flat(one.url_patterns)
        else:
            yield one


def queries_of(work) -> int:
    with CaptureQueriesContext(connection) as captured:
        work()
    return len(captured)


def beside_bare(page: Page, rounds: int) -> bool:
    ask, bare = asking(page.address), Bare(page.address)
    if page.is_new:
        ask = anew(ask)
    whole, baseline = quickest([ask, bare], rounds)
    counted = queries_of(ask), queries_of(bare)
    size = len(ask().content)
    return told(page.name, whole / baseline, page.bar,
                f"{1e3 * whole:.1f} ms, bare {1e3 * baseline:.1f} ms, {counted[0]} queries "
                f"(bare {counted[1]}), {size / 1e3:.0f} kB")


def anew(ask: Callable[[], Any]) -> Callable[[], Any]:
    """As the first who asks after a change."""
    index = public_index()

    def first():
        index.kept.clear()
        forget_pages()
        return ask()
    return first


def forget_pages() -> None:
    kept_pages.pages.clear()
    kept_pages.shared.clear()


def deep(units: int, rounds: int) -> bool:
    path = reverse("unit_list")
    number = min(DEPTH, units // 50)
    first, late = quickest(
        [asking(path), asking(address(path, {"after": place(number)}))], rounds)
    return told(f"page {number} beside page 1", late / first, DEEP,
                f"{1e3 * late:.1f} ms and {1e3 * first:.1f} ms")


def plain_list(choices: dict[str, str]) -> None:
    """What a first draft asks: versions with their assessments, three filters, a count, a page and
    the counts of each facet by a query of its own."""
    found = Publication.objects.current().filter(
        standing__verdict=choices["verdict"], channel=choices["channel"],
        unit__listing__connectors__icontains=choices["connector"]).order_by("-published_at", "-pk")
    page = Paginator(found.select_related("standing", "unit").defer(
        "document", "frozen", "standing__payload"), 25).get_page(1)
    list(page.object_list)
    for column in ("standing__verdict", "standing__risk", "kind", "channel",
                   "unit__listing__topology", "unit__listing__year", "unit__listing__controller"):
        counted = Publication.objects.current().order_by().values(column)
        list(counted.annotate(n=Count("pk"))[:50])


def against_plain(rounds: int) -> bool:
    """The data of a page with three facets, by the index and by plain queries."""
    choices = {facet: (code,) for facet, code in chosen().items()}

    def by_index():
        found = browse(choices)
        list(ListedUnit.objects.filter(pk__in=found.pks))

    index, = quickest([by_index], rounds)
    plain, = quickest([lambda: plain_list(chosen())], 1)
    return told("plain queries beside the index", index / plain, 1 / PLAIN,
                f"{1e3 * index:.2f} ms against {1e3 * plain:.0f} ms, {plain / index:.0f} times")


def searching(rounds: int) -> bool:
    """The whole page of a search, beside one query that reads every row and prints nothing."""
    some = with_page()
    path, found = reverse("unit_list"), []
    for name, choices in (("a model", {"q": some.model}), ("a controller", {"q": some.controller}),
                          ("a controller, three facets", chosen() | {"q": some.controller})):
        ask = asking(address(path, choices))
        whole, = quickest([ask], rounds)
        plain, = quickest([lambda word=choices["q"]: plain_search(word)], 1)
        found.append(told(f"search for {name}, beside reading every row", whole / plain, SEARCH,
                          f"{1e3 * whole:.1f} ms and {1e3 * plain:.0f} ms, {queries_of(ask)} "
                          "queries"))
    return all(found)


def plain_search(word: str) -> None:
    here = Q(*((f"{column}__icontains", word) for column in ("title", "maker", "model", "words")),
             _connector=Q.OR)
    rows = Publication.objects.current().filter(here).order_by("-published_at", "-pk")
    list(rows.values_list("pk", "title")[:25])
    rows.count()


def comparison(rounds: int, is_new: bool) -> bool:
    """Six units side by side, beside the page of one."""
    pks = [with_page(number).pk for number in range(0, 60, 10)]
    one = asking(reverse("unit_detail", args=[pks[0]]))
    six = asking(f"{reverse('compare')}?units={','.join(map(str, pks))}")
    if is_new:
        one, six = anew(one), anew(six)
    whole, unit = quickest([six, one], max(rounds // 2, 5))
    return told(f"comparison of six beside one unit{', both made anew' * is_new}", whole / unit,
                COMPARISON, f"{1e3 * whole:.1f} ms and {1e3 * unit:.1f} ms, {queries_of(six)} "
                f"queries, {len(six().content) / 1e3:.0f} kB")


def own_share(rounds: int) -> None:
    """What index and search themselves take of a page; printed, without a bar."""
    choices = {facet: (code,) for facet, code in chosen().items()}
    times = quickest([lambda: browse({}), lambda: browse(choices),
                          lambda: search("usb")], rounds)
    print("   the index: no choice {:.2f} ms, three facets {:.2f} ms; a search for “usb” {:.1f} ms"
          .format(*(1e3 * one for one in times)))


def told(name: str, ratio: float, bar: float, words: str) -> bool:
    is_met = ratio <= bar
    print(f"{'  ' if is_met else '✗ '} {name}: {ratio:.3g} × (at most {bar:.3g}); {words}")
    return is_met


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
