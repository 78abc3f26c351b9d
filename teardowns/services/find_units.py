"""Ask the list: the words to the search, the choices to the index of the listing."""
from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from teardowns.browsing.finding import RANK, Choices, find
from teardowns.browsing.index import Index

from .browse import Found, browse, public_index
from .facets import FACETS
from .listing_clock import Mark
from .search import Hits, search

ALL = 10**6              # more units than there will be
CUT = ("More than {n} units have these words: the {n} best are counted and shown. A further word, "
       "or a part of a marking, finds the others.")


@dataclass(frozen=True, slots=True)
class Answer:
    found: Found
    index: Index                     # which stands for the state of the listing that was asked
    hits: Hits | None = None         # of the words, where there are any

    @property
    def pks(self) -> NDArray[np.int64]:
        """Of all units that were found, in no order."""
        return self.index.pks[self.found.among.slots] if self.found.among else np.empty(0, np.int64)

    @property
    def remarks(self) -> list[str]:
        """How the words were read, and whether only the best of what they found is counted."""
        if self.hits is None:
            return []
        cut = CUT.format(n=len(self.hits.units)) if self.hits.is_cut else ""
        return [remark for remark in (self.hits.remark, cut) if remark]


def find_units(text: str, choices: Choices, *, sort: str = "", after: str = "",
               size: int = 25, mark: Mark | None = None) -> Answer:
    """One page of the list. Without a sort a search gives its best first, else the newest come.

    mark : of the listing, where it was read a moment ago. Raises BadPlace for `after`.
    """
    index, hits = public_index(mark), search(text) if text else None
    order = sort or ("newest" if hits is None else RANK)
    found = find(index, choices, sort=order, after=after, size=size,
                 within=None if hits is None else hits.units)
    return Answer(found, index, hits)


def matching(text: str, choices: Choices, among: Collection[int] | None = None) -> list[int]:
    """All public units that a question finds, of these or of all; none by a facet of the past."""
    if not choices.keys() <= FACETS.keys():
        return []
    within = search(text, limit=ALL).units if text else None
    if among is not None:
        within = list(among) if within is None else [pk for pk in within if pk in among]
    return browse(choices, within=within, size=ALL).pks
