"""What each copy has of its own: makers, models, markings, dates. Invented, and drawn by number."""
from __future__ import annotations

from functools import cache
from random import Random

FIRST = ("br", "cr", "d", "dw", "f", "gl", "h", "k", "l", "m", "n", "pl", "qu", "r", "sk", "st",
         "t", "thr", "tw", "v", "w", "wr", "y", "z")
VOWELS = ("a", "e", "i", "o", "u")
MIDDLE = ("bb", "ck", "d", "ff", "gn", "lb", "ld", "lm", "mbl", "mp", "nd", "nk", "ph", "pp", "rg",
          "rl", "rst", "sp", "ss", "tt", "x")
LAST = ("d", "f", "k", "l", "m", "n", "p", "rd", "rk", "rn", "sk", "st", "t", "ve", "y", "gh")
SIGNS = "BCDFGHJKLMNPRTVWXY3479"           # no letter that is taken for a digit
MAKERS = 60                                # of each length


@cache
def makers(length: int) -> tuple[str, ...]:
    """Names of one length, so that places in a printed text stay where they are."""
    draw, found = Random(length), {}
    while len(found) < MAKERS:
        name = draw.choice(FIRST) + draw.choice(VOWELS)
        while len(name) < length - 2:
            name += draw.choice(MIDDLE) + draw.choice(VOWELS)
        name += draw.choice(LAST)
        if len(name) == length:
            found[name.capitalize()] = None
    return tuple(found)


def one_maker(draw: Random, length: int) -> str:
    """A few makers have most of the units."""
    return makers(length)[int(MAKERS * draw.random() ** 2)]


def suffix(draw: Random) -> str:
    return "".join(draw.choices(SIGNS, k=4))


def marking(draw: Random) -> str:
    """As long as those of documents.OWN_MARKING; a few are found in most units."""
    number = int(400 * draw.random() ** 2)
    return f"{SIGNS[number % 19]}{SIGNS[number // 19 % 17]}{number % 7}{number % 10}-" \
           f"{SIGNS[number * 5 % 22]}{SIGNS[number * 11 % 22]}"


def obtained(draw: Random) -> str:
    year = 2026 - int(8 * draw.random() ** 2)
    return f"{year}-{draw.randint(1, 9 if year == 2026 else 12):02}-{draw.randint(1, 28):02}"


def reach(draw: Random) -> int:
    return int(10 ** draw.uniform(0.5, 5.3))
