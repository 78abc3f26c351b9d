"""How the cost of pages grows with the number of units: data sets of 10 000, 100 000, 1 000 000.

python -m tests.bench.growth [--rounds N] DATA …

Each DATA is a folder as in UNDERPLATE_DATA_DIR, or an address as in DATABASE_URL, filled by
tests.bench.many_units; the smallest comes first. Every one is asked by a process of its own, beside
a list without queries, which takes the same whatever the number of units: growth is that of the
ratios. Exits 1 where it is more than 1.3 between the last two.
"""
from __future__ import annotations

import json
import os
import subprocess
import sys
from argparse import ArgumentParser

GROWTH = 1.3
# Grow with the units: all are read, or counted.
SHOWN_ONLY = {"first list of a process", "list, three choices anew"}


def main() -> int:
    asked = ArgumentParser(usage=__doc__)
    asked.add_argument("--rounds", type=int, default=20)
    asked.add_argument("--one", action="store_true")
    asked.add_argument("data", nargs="*")
    options = asked.parse_args()
    if options.one:
        print(json.dumps(measured(options.rounds)))
        return 0
    found = [answered(data, options.rounds) for data in options.data]
    units = [one.pop("units") for one in found]
    print(f"load {os.getloadavg()[0]:.1f}; ms (times a list without queries)")
    print(f"{'':32}" + "".join(f"{number:>22,}" for number in units) + "   growth")
    rows = [shown(name, [one[name] for one in found]) for name in found[-1]]
    return int(not all(rows))


def shown(name: str, values: list[list[float]]) -> bool:
    grown = values[-1][1] / values[-2][1] if len(values) > 1 else 1.0
    is_met = grown <= GROWTH or name in SHOWN_ONLY
    cells = "".join(f"{ms:13.2f} ({ratio:5.2f})" for ms, ratio in values)
    print(f"{'  ' if is_met else '✗ '}{name:30}{cells}   {grown:5.2f} ×")
    return is_met


def answered(data: str, rounds: int) -> dict:
    name = "DATABASE_URL" if "://" in data else "UNDERPLATE_DATA_DIR"
    kept = {key: value for key, value in os.environ.items() if key != "DATABASE_URL"}
    told = subprocess.run([sys.executable, "-m", "tests.bench.growth", "--one", "--rounds",
                           str(rounds)], env=kept | {name: data}, check=True,
                          stdout=subprocess.PIPE, text=True).stdout
    return json.loads(told.splitlines()[-1])


def measured(rounds: int) -> dict:
    """By page, ms and times the bare one; and how many units there are."""
    from tests.bench import browse as pages  # sets Django up, with the data of this process

    pages.plain_files()
    pages.pack_listing()
    begun, = pages.quickest([pages._packs.kept], 3)
    again, anew, bare = questions(pages)
    found = {}
    for works in (again, anew):                   # apart: one that is made anew forgets the others
        times = pages.quickest([bare, *works.values()], rounds)
        found |= {name: [1e3 * one, one / times[0]]
                  for name, one in zip(works, times[1:], strict=True)}
    return {"units": pages.browse({}).total,
            **found, "first list of a process": [1e3 * begun, begun / times[0]]}


def questions(pages):
    listed, unit = pages.reverse("unit_list"), pages.with_page()
    narrowed = pages.address(listed, pages.chosen())
    of_unit = pages.asking(pages.reverse("unit_detail", args=[unit.pk]))
    return {
        "list": pages.asking(listed),
        "list, three choices": pages.asking(narrowed),
        "list, page 200": pages.asking(pages.address(listed, {"after": pages.place(200)})),
        "search, a model": pages.asking(pages.address(listed, {"q": unit.model})),
        "search, a controller": pages.asking(pages.address(listed, {"q": unit.controller})),
        "search, a word of most texts": pages.asking(pages.address(listed, {"q": "usb"})),
        "search, a longer one": pages.asking(pages.address(listed, {"q": "charger"})),
        "unit page": of_unit,
        "feed": pages.asking(pages.reverse("feed_newest")),
    }, {
        "list, made anew": pages.anew(pages.asking(listed)),
        "list, three choices anew": pages.anew(pages.asking(narrowed)),
        "unit page, made anew": pages.anew(of_unit),
    }, pages.Bare(listed)


if __name__ == "__main__":
    sys.exit(main())
