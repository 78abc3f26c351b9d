"""A question that a person answers at once and a script that sends thousands does not.

It is text, needs no picture and no sound, and is asked only of who did not sign in. The answer is
not in the page: its keyed hash is, and it holds for an hour.
"""
from __future__ import annotations

import random
from collections.abc import Mapping

from django.core import signing
from django.utils.crypto import constant_time_compare, get_random_string, salted_hmac

METALS = ("copper", "iron", "silver", "tin", "zinc", "gold", "nickel", "lead")
OTHERS = ("cotton", "paper", "rubber", "wood", "wool", "glass", "wax", "leather")
NUMBERS = ("zero", "one", "two", "three", "four", "five", "six")
SALT, HOLDS = "plain-question", 3600
WRONG = "That is not the answer. Here is another question; all else that you typed is kept."


class PlainQuestion:
    """Asked anew on every page; `is_answered` when what came in answers the one before."""

    def __init__(self, data: Mapping[str, str] | None = None):
        self.is_answered = data is not None and _is_right(
            data.get("question", ""), data.get("answer", ""))
        self.error = WRONG if data is not None and not self.is_answered else ""
        metals = random.sample(METALS, random.randint(1, 3))
        words = metals + random.sample(OTHERS, random.randint(2, 3))
        random.shuffle(words)
        self.text = f"How many of these are metals: {', '.join(words)}?"
        self.token = _sealed(len(metals))


def _sealed(answer):
    nonce = get_random_string(16)
    return signing.dumps([nonce, _hash(nonce, answer)], salt=SALT)


def _hash(nonce, answer):
    return salted_hmac(SALT, f"{nonce}:{answer}", algorithm="sha256").hexdigest()


def _is_right(token, typed):
    try:
        nonce, sealed = signing.loads(token, salt=SALT, max_age=HOLDS)
    except signing.BadSignature:
        return False
    typed = typed.strip().lower()
    answer = NUMBERS.index(typed) if typed in NUMBERS else typed
    return constant_time_compare(_hash(nonce, answer), sealed)
