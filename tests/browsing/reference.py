"""Invented units with a few facets, and what a list of them shows, found one by one."""
from __future__ import annotations

from dataclasses import dataclass, replace

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from teardowns.browsing.facets import Bands, Facet, each_of, if_any, one_of
from teardowns.browsing.index import Index
from teardowns.browsing.values import MOST_COUNTED

FACETS = (
    Facet("power", "Power", "power", Bands((10.0, 20.0), ("low", "middle", "high"))),
    Facet("word", "Word", "word", one_of, {"yes": "Yes", "no": "No"}),
    Facet("plug", "Plug", "plugs", each_of),
    Facet("chip", "Chip", "chip", if_any, has_many=True),
    Facet("board", "Board", "boards", tuple, has_many=True),
)
quick = settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.too_slow])
SORTS = {"power": "power", "age": "age"}
CODES = {"power": ("low", "middle", "high", "none"), "word": ("yes", "no", "none", "perhaps"),
         "plug": ("a", "b", "none"), "chip": ("x1", "x2", "never"), "board": ("k", "never")}


@dataclass(frozen=True)
class Row:
    pk: int
    power: float | None
    word: str
    plugs: tuple[str, ...]
    chip: str
    boards: tuple[str, ...]
    age: float
    is_listed: bool = True


rows = st.builds(
    Row, pk=st.integers(1, 200), power=st.none() | st.sampled_from([0.0, 10.0, 10.5, 20.0, 99.0]),
    word=st.sampled_from(["", "yes", "no"]), plugs=st.sampled_from([(), ("a",), ("b", "a")]),
    chip=st.sampled_from(["", "x1", "x2", "x3"]),
    boards=st.sampled_from([(), ("k",), ("m", "k")]), age=st.sampled_from([1.0, 2.0, 2.5]),
    is_listed=st.booleans())
tables = st.lists(rows, max_size=90, unique_by=lambda row: row.pk)
choices = st.fixed_dictionaries({}, optional={
    code: st.lists(st.sampled_from(codes), unique=True, max_size=2).map(tuple)
    for code, codes in CODES.items()})


def indexed(table, index=None):
    index = Index.empty(FACETS, SORTS) if index is None else index
    columns = {name: [getattr(row, name) for row in table]
               for name in ("power", "word", "plugs", "chip", "boards", "age")}
    return index.changed([row.pk for row in table], [row.is_listed for row in table], columns)


def codes_of(row, facet):
    return facet.codes(getattr(row, facet.column))


def chosen(table, asked, but=""):
    """Listed rows that have one of the codes of every facet asked for."""
    return [row for row in table if row.is_listed and all(
        set(asked[facet.code]) & set(codes_of(row, facet)) for facet in FACETS
        if asked.get(facet.code) and facet.code != but)]


def in_order(table, sort):
    """Largest first, the unknown last, among equals the newer number first."""
    def key(row):
        value = getattr(row, sort)
        return (value is None, -(value or 0.0), -row.pk)
    return sorted(table, key=key)


def counted(table, asked):
    """By facet and code, over what all other facets leave."""
    return {facet.code: _counts(facet, chosen(table, asked, but=facet.code),
                                asked.get(facet.code, ())) for facet in FACETS}


def _counts(facet, left, asked):
    found: dict[str, int] = {}
    for row in left:
        for code in codes_of(row, facet):
            found[code] = found.get(code, 0) + 1
    if facet.has_many:
        found = dict(sorted(found.items(), key=lambda pair: (-pair[1], pair[0]))[:MOST_COUNTED])
    return found | {code: sum(code in codes_of(row, facet) for row in left) for code in asked}


def changed(table, others):
    """The table after some rows became others, and some were added."""
    return [*{row.pk: row for row in (*table, *others)}.values()]


def relisted(row):
    return replace(row, is_listed=not row.is_listed)
