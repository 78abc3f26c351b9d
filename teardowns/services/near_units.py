"""Public units whose plate is like a text: same model, maker, claims, or a marking inside."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from django.db import connection

from teardowns.models import SearchText
from teardowns.models.search_texts import of_text_key
from teardowns.reading.plates import PlateReading
from teardowns.search_engines import ids
from teardowns.searching.claim_words import of_claim
from teardowns.searching.folding import as_read, folded
from teardowns.searching.plate_names import names_on
from teardowns.searching.tokens import CLAIM, MAKER, MARKING_LOOSE, MODEL_LOOSE, UNIT
from teardowns.searching.wanted import AllOf, AnyOf, Token, Wanted
from teardowns.searching.words import LONGEST, run_together

MOST = 12
CANDIDATES = 100            # of each way of being near, the newest
MOST_CLAIMS = 8             # ratings by which units are looked for; all of them are compared
# What each likeness counts, common practice, no source: a model says more than a rating does.
SAME_MODEL, SAME_MARKING, SAME_CLAIMS, SAME_MAKER = 6.0, 5.0, 4.0, 2.0
OF_CLAIM = UNIT + CLAIM


@dataclass(frozen=True, slots=True)
class NearUnit:
    """How near a unit is, and by what."""

    pk: int
    nearness: float
    same_model: bool = False
    same_maker: bool = False
    has_marking: bool = False
    claims: tuple[str, ...] = ()        # claim words that both have
    asked: int = 0                      # claim words of the text


@dataclass(frozen=True, slots=True)
class _Asked:
    names: Sequence[str]
    claims: Sequence[str]
    marking: str


def near_units(text: str, reading: PlateReading | None, marking: str = "") -> list[NearUnit]:
    """The nearest first; none where nothing of the text is on any other plate. Two queries."""
    claims = reading.claims if reading else ()
    read = [name for claim in claims for name in (claim.model, claim.maker) if name]
    asked = _Asked(names_on(as_read(text), read),
                   list(dict.fromkeys(word for claim in claims for word in of_claim(claim))),
                   run_together(folded(as_read(marking)))[:LONGEST])
    keys = ids(connection, list(_ways(asked)), CANDIDATES)
    rows = SearchText.objects.filter(pk__in=keys[:4 * CANDIDATES]).values_list("pk", "tokens")
    found = [_nearness(of_text_key(key)[1], tokens, asked) for key, tokens in rows]
    return sorted((one for one in found if one.nearness > 0),
                  key=lambda one: (-one.nearness, -one.pk))[:MOST]


def _ways(asked: _Asked) -> Iterator[Wanted]:
    """In what a near unit may be found by, the surest first."""
    models = [Token(f"{UNIT}{MODEL_LOOSE}{name}") for name in asked.names]
    makers = [Token(f"{UNIT}{MAKER}{name}") for name in asked.names]
    claims = [Token(f"{UNIT}{CLAIM}{word}") for word in asked.claims[:MOST_CLAIMS]]
    if asked.marking:
        yield Token(f"{UNIT}{MARKING_LOOSE}{asked.marking}", is_start=len(asked.marking) > 2)
    if models:
        yield AnyOf(tuple(models))
    if makers and claims:
        yield AllOf((AnyOf(tuple(makers)), AnyOf(tuple(claims))))
    for count in sorted({len(claims), len(claims) - 1, 2, 1}, reverse=True):
        if 0 < count <= len(claims):
            yield AnyOf(tuple(map(AllOf, combinations(claims, count))))
    if makers:
        yield AnyOf(tuple(makers))


def _nearness(pk, tokens, asked):
    has = set(tokens.split())
    model = any(f"{UNIT}{MODEL_LOOSE}{name}" in has for name in asked.names)
    maker = any(f"{UNIT}{MAKER}{name}" in has for name in asked.names)
    theirs = {token[len(OF_CLAIM):] for token in has if token.startswith(OF_CLAIM)}
    shared = tuple(word for word in asked.claims if word in theirs)
    marked = bool(asked.marking) and f" {UNIT}{MARKING_LOOSE}{asked.marking}" in f" {tokens}"
    overlap = len(shared) / len(theirs | set(asked.claims)) if shared else 0.0
    return NearUnit(pk, SAME_MODEL * model + SAME_MAKER * maker + SAME_MARKING * marked
                    + SAME_CLAIMS * overlap, model, maker, marked, shared, len(asked.claims))
