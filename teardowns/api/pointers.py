"""JSON pointers (RFC 6901) to the place in a body that a sentence is about."""
import re
from collections.abc import Iterable

_STEP = re.compile(r"[^.\[\]]+|\[\d+\]")
# `measurements[3].value: is missing`: a path as the document's reader writes it, then words.
_SAID = re.compile(r"(?P<path>[A-Za-z_][\w-]*(?:\[\d+\]|\.[^.\[\]:\s]+)*): (?P<words>.*)",
                   re.DOTALL)


NO_FIELD = "There is no such field here: the fields are {}."


class BodyErrors(Exception):
    """What was sent cannot be taken: `errors` as of a problem."""

    def __init__(self, errors: list[dict[str, str]]):
        super().__init__("; ".join(each["detail"] for each in errors))
        self.errors = errors


def pointer(*steps: object) -> str:
    """ "/rows/claims/0/voltage"; "" is the whole body."""
    return "".join(f"/{str(step).replace('~', '~0').replace('/', '~1')}" for step in steps)


def strangers(given: Iterable[str], known: Iterable[str], *below: object) -> list[dict[str, str]]:
    """An error for each field that nobody reads: it is misspelt, and would be missed in silence."""
    names = list(known)
    words = NO_FIELD.format(", ".join(names) or "none")
    return [{"detail": words, "pointer": pointer(*below, name)}
            for name in given if name not in names]


def placed(problems: Iterable[str], *below: object) -> list[dict[str, str]]:
    """Sentences of the document's reader as errors with pointers.

    below : the steps that lead to the document in the body
    """
    return [_placed(each, below) for each in problems]


def _placed(said, below):
    found = _SAID.fullmatch(said)
    if found is None:
        return {"detail": said, "pointer": pointer(*below)}
    steps = [step.strip("[]") for step in _STEP.findall(found["path"])]
    return {"detail": found["words"], "pointer": pointer(*below, *steps)}
