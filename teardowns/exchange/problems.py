"""What is wrong with a document, in the words of whoever wrote it."""
from __future__ import annotations

from collections.abc import Iterable
from itertools import islice

MOST = 50           # nobody reads more at once, and a hostile file may hold any number


class DocumentError(ValueError):
    """A document that cannot be taken; `problems` names each place and its remedy."""

    def __init__(self, problems: Iterable[str]):
        self.problems = tuple(problems)
        super().__init__("\n".join(self.problems))


def refuse_if_any(problems: Iterable[str]) -> None:
    """Raise DocumentError with the first problems, if there are any."""
    problems = iter(problems)
    if first := list(islice(problems, MOST)):
        raise DocumentError([*first, *("and more" for _ in islice(problems, 1))])


def at(path: str, problem: str) -> str:
    """`measurements[3].value: is missing; …`; a problem of the whole document has no path."""
    return f"{path}: {problem}" if path else problem
