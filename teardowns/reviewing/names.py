"""Whether two written names of an organisation may mean the same one."""
from __future__ import annotations

import re

WORDS = re.compile(r"\w+")
FORMS = frozenset({"co", "corp", "corporation", "company", "gmbh", "inc", "limited", "llc", "ltd",
                   "ag", "bv", "sa", "srl", "the"})


def names_meet(one: str, other: str) -> bool:
    """Whether all words of the shorter name stand in the longer one, legal forms left out.

    >>> names_meet("Veltrice Ltd.", "VELTRICE Electronics Co., Ltd")
    True
    """
    words, others = _words(one), _words(other)
    return bool(words and others) and (words <= others or others <= words)


def _words(name):
    return {word for word in WORDS.findall(name.casefold()) if word not in FORMS}
