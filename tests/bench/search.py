"""A search and its snippets, beside bare SQL over the same index and beside a scan for the words.

python -m tests.bench.search [runs, default 20]

Over the units of DATABASE_URL or UNDERPLATE_DATA_DIR (tests.bench.many_units makes them). The words
are drawn from those units: one that nearly all have, one of about 3 in 100, one of a few. Exits 1
when a bar is missed.
"""
from __future__ import annotations

import os
import sys
import time
from collections import Counter

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from django.db import connection  # noqa: E402
from django.db.models import Q  # noqa: E402

from teardowns.models import SearchText  # noqa: E402
from teardowns.search_engines import ids  # noqa: E402
from teardowns.searching.wanted import Token  # noqa: E402
from teardowns.services.search import search, snippets  # noqa: E402
from teardowns.services.search_suggestions import suggestions  # noqa: E402

PAGE = 25
SAMPLE = 2000               # newest rows that the words are drawn from
SHARES = {"common": 0.6, "middle": 0.03, "rare": 0.0005}
# Of words that 3 in 100 texts or fewer have.
SCAN_BAR = 20.0             # times as fast as a scan
BARE_BAR = 8.0              # times the bare query, of the middle word: a rare one is all overhead


def main(runs: int = 20) -> int:
    count = SearchText.objects.count()
    print(f"{connection.vendor}, {count} texts, least of {runs} interleaved runs, ms")
    words = drawn_words()
    missed = [name for name, word in words.items() if not measured(name, word, runs)]
    for name, text in {"misspelt": _misspelt(words["middle"]), "beginning": words["middle"][:3],
                       "piece": words["rare"][1:], "two words": " ".join(
                           (words["middle"], words["common"]))}.items():
        times = interleaved({"search": lambda text=text: search(text),
                             "suggest": lambda text=text: suggestions(text)}, runs)
        print(f"{name:10} {text!r:26} search {times['search']:7.1f}   "
              f"suggestions {times['suggest']:7.1f}   {search(text).total} units")
    print("target:", f"missed by {', '.join(missed)}" if missed else "met")
    return int(bool(missed))


def drawn_words() -> dict[str, str]:
    """Of the sample the word whose share of the texts is nearest to what is wanted."""
    rows = SearchText.objects.order_by("-pk").values_list("tokens", flat=True)[:SAMPLE]
    shares = Counter(token[2:] for row in rows for token in row.split() if token[:2] == "ur"
                     and token[2:].isalpha() and len(token) > 6)
    near = {name: sorted(shares, key=lambda word: (abs(shares[word] / len(rows) - share), word))
            for name, share in SHARES.items()}
    return {name: words[0] for name, words in near.items()}


def measured(name: str, word: str, runs: int) -> bool:
    found = search(word)
    page = found.units[:PAGE]
    times = interleaved({
        "search": lambda: search(word), "snippets": lambda: snippets(page, word),
        "bare": lambda: ids(connection, [Token(f"ur{word}", True)], 2000),
        "scan": lambda: scanned(word)}, runs)
    bare, scan = times["search"] / times["bare"], times["scan"] / times["search"]
    is_met = name == "common" or (scan >= SCAN_BAR and (name != "middle" or bare <= BARE_BAR))
    print(f"{name:10} {word!r:26} search {times['search']:7.1f} = {bare:4.1f} × bare SQL"
          f" {times['bare']:6.1f}; scan {times['scan']:8.1f} = {scan:6.1f} × search;"
          f" snippets {times['snippets']:5.1f}; {found.total} units{' or more' * found.is_cut}")
    return is_met


def scanned(word: str) -> list[int]:
    """What a list without an index does."""
    return list(SearchText.objects.filter(
        Q(title__icontains=word) | Q(body__icontains=word)).order_by("-pk")
        .values_list("pk", flat=True)[:2000])


def interleaved(calls, runs):
    taken = {name: [] for name in calls}
    for _ in range(runs):
        for name, call in calls.items():
            started = time.perf_counter()
            call()
            taken[name].append(1e3 * (time.perf_counter() - started))
    return {name: min(times) for name, times in taken.items()}


def _misspelt(word: str) -> str:
    return word[:-3] + word[-2] + word[-3] + word[-1]


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
