"""What an index holds of one text: words that begin with a letter for what they are part of.

One column of words serves every question and both databases: `ut` + `hub` asks for a unit with
“hub” in its title. Units have tokens of their own, parts and families share theirs.
"""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .folding import folded, plain
from .words import CHUNK, LONGEST, run_together, without_quantities, words_of

UNIT, OTHER = "u", "o"
MODEL, MODEL_LOOSE = "m", "n"           # a whole model, with and without its maker
MARKING, MARKING_LOOSE = "x", "y"       # a whole marking
MAKER = "k"
TITLE, ANY, LOOSE = "t", "r", "l"       # loose: folded words that no word of the text equals
CLAIM = "c"
LEAST_PIECE = 3                         # letters of a piece that can be found inside a marking


@dataclass(frozen=True, slots=True)
class Texts:
    """What is public of one thing, as printed."""

    title: str
    lines: tuple[str, ...] = ()             # printed texts, notes, parts: a line a fact
    makers: tuple[str, ...] = ()
    models: tuple[str, ...] = ()
    markings: tuple[str, ...] = ()
    claims: tuple[str, ...] = ()            # claim words

    @property
    def full_models(self) -> tuple[str, ...]:
        """Models, each alone and behind its maker."""
        both = (f"{maker} {model}" for maker in self.makers for model in self.models)
        return (*self.models, *both)

    @property
    def names(self) -> tuple[str, ...]:
        """Every whole name that somebody may complete."""
        return (*self.makers, *self.full_models, *self.markings)


def tokens_of(texts: Texts, kind: str = UNIT) -> str:
    """All tokens of a text, each once, with one blank between."""
    everything = "\n".join((texts.title, *texts.names, *texts.lines))
    words = {*words_of(everything), *_keys(texts.names)}
    loose = {*words_of(folded(everything)), *_keys(map(folded, texts.names))}
    found = {
        MODEL: _keys(texts.full_models), MODEL_LOOSE: _keys(map(folded, texts.full_models)),
        MARKING: _keys(texts.markings), MARKING_LOOSE: _keys(map(folded, texts.markings)),
        MAKER: _keys(map(folded, texts.makers)),
        TITLE: {*words_of("\n".join((texts.title, *texts.makers, *texts.models))),
                *_keys(texts.full_models)},
        ANY: words, LOOSE: loose - words, CLAIM: set(texts.claims),
    }
    return " ".join(sorted(f"{kind}{part}{word}" for part, some in found.items()
                           for word in set(some)))


def run_together_of(texts: Texts) -> str:
    """Folded markings, and what is printed with a digit in it, a line each: for a piece of one."""
    printed = (chunk for line in texts.lines
               for chunk in CHUNK.findall(without_quantities(plain(line)))
               if any(letter.isdigit() for letter in chunk))
    keys = _keys(map(folded, (*texts.full_models, *texts.markings, *printed)))
    return "\n".join(sorted(key for key in keys if len(key) >= LEAST_PIECE))


def _keys(names: Iterable[str]) -> set[str]:
    return {key for name in names if 0 < len(key := run_together(name)) <= LONGEST}
