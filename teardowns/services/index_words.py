"""Bring what a search looks into in line with what everybody sees now."""
from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from django.db import transaction
from django.db.models import Max

from teardowns.models import BoardFamily, Findable, Part, Publication, SearchTerm, SearchText
from teardowns.models.search_texts import KINDS, of_text_key, text_key
from teardowns.searching.folding import plain
from teardowns.searching.tokens import OTHER, UNIT, Texts, run_together_of, tokens_of
from teardowns.searching.words import LONGEST, WORD, run_together

from .search_texts import family_texts, part_texts, unit_texts

CHUNK = 500
COLUMNS = ("title", "body", "tokens", "run_together")
SHORTEST = 3                        # letters of a word that is worth completing
LONGEST_NAME = 200

Reader = Callable[[Sequence[int]], Mapping[int, Texts]]
READERS: dict[Findable, Reader] = {
    Findable.UNIT: unit_texts, Findable.PART: part_texts, Findable.FAMILY: family_texts}


def index_words(unit_pks: Iterable[int]) -> None:
    """Rows of these units: of what is public now, and none of what is not.

    Called in the transaction of the change.
    """
    _index(Findable.UNIT, unit_pks)


def index_parts(part_pks: Iterable[int]) -> None:
    _index(Findable.PART, part_pks)


def index_families(family_pks: Iterable[int]) -> None:
    _index(Findable.FAMILY, family_pks)


def rebuild_words() -> Iterator[tuple[int, int]]:
    """Everything anew, in slices: (done, of all). What nobody may find any more goes."""
    SearchTerm.objects.all().delete()
    for kind, pks, done, count in _slices():
        _index(kind, pks)
        yield done, count


def differing_words() -> Iterator[tuple[int, int, list[str]]]:
    """(done, of all, what differs) in slices: rows that are missing, old or too many."""
    for kind, pks, done, count in _slices():
        yield done, count, list(_differing(kind, pks))


@transaction.atomic
def _index(kind, pks):
    pks = sorted(set(pks))
    for start in range(0, len(pks), CHUNK):
        some = pks[start:start + CHUNK]
        texts = READERS[kind](some)
        gone = [pk for pk in some if pk not in texts]
        SearchText.objects.of(kind, gone).delete()
        SearchText.objects.bulk_create(
            [search_text(kind, pk, texts[pk]) for pk in sorted(texts)], update_conflicts=True,
            unique_fields=["id"], update_fields=COLUMNS)
        learn_terms(texts.values())


def search_text(kind: Findable, pk: int, texts: Texts) -> SearchText:
    letter = UNIT if kind == Findable.UNIT else OTHER
    return SearchText(id=text_key(kind, pk), title=texts.title, body="\n".join(texts.lines),
                      tokens=tokens_of(texts, letter), run_together=run_together_of(texts))


def learn_terms(texts):
    """Words and names that are new; in the order of their keys, so that nobody waits round."""
    terms = {term.key: term for text in texts for term in _terms(text)}
    SearchTerm.objects.bulk_create([terms[key] for key in sorted(terms)], ignore_conflicts=True)


def _terms(text: Texts) -> Iterator[SearchTerm]:
    """Names after words, so that a name that is a word as well is kept as a name."""
    everything = " ".join((text.title, *text.lines))
    for match in WORD.finditer(plain(everything)):
        yield from _term(everything[match.start():match.end()], False)
    for name in reversed(text.names):           # the first of two spellings is kept
        yield from _term(name, True)


def _term(shown: str, is_name: bool) -> Iterator[SearchTerm]:
    key = run_together(shown)
    if SHORTEST <= len(key) <= LONGEST and not key.isdigit():
        yield SearchTerm(key=key, backwards=key[::-1], shown=shown[:LONGEST_NAME],
                         is_name=is_name)


def _slices() -> Iterator[tuple[Findable, range, int, int]]:
    """Every number that a unit, part or family has or had, kind by kind: (…, done, of all)."""
    highest = _highest()
    count = sum(highest.values())
    done = 0
    for kind, last in highest.items():
        for start in range(1, last + 1, CHUNK):
            pks = range(start, min(start + CHUNK, last + 1))
            done += len(pks)
            yield kind, pks, done, count


def _highest() -> dict[Findable, int]:
    """The largest number of each kind, also of rows of this table that nothing stands behind."""
    newest: dict[Findable, Any] = {
        Findable.UNIT: Publication.objects.aggregate(most=Max("unit_id")),
        Findable.PART: Part.objects.aggregate(most=Max("pk")),
        Findable.FAMILY: BoardFamily.objects.aggregate(most=Max("pk"))}
    left = (SearchText.objects.aggregate(most=Max("pk"))["most"] or 0) // KINDS
    return {kind: max(found["most"] or 0, left) for kind, found in newest.items()}


def _differing(kind, pks):
    texts = READERS[kind](pks)
    wanted = {row.pk: row for row in (search_text(kind, pk, one) for pk, one in texts.items())}
    found = {row.pk: row for row in SearchText.objects.of(kind, pks)}
    for key in sorted(wanted.keys() | found.keys()):
        what, pk = of_text_key(key)
        name = f"{what.label} {pk}"
        if key not in found:
            yield f"{name}: not in the index"
        elif key not in wanted:
            yield f"{name}: in the index, but not public"
        elif any(getattr(wanted[key], column) != getattr(found[key], column) for column in COLUMNS):
            yield f"{name}: the index holds an older text"
