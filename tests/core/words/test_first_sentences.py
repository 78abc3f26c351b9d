"""The sentence at the head of a record says in German what it says in English: before its colon."""
import pytest
from django.utils import translation

from core.words.said import said
from teardowns.presenting.wording import ANSWERS

AFTER = (".", ": the unit examined can deliver about 1.9\u202fW continuously, 38\u202f% of what is "
         "printed.", ": what was found leaves the unit examined anywhere between 2.0 and "
         "9.0\u202fW.")


@pytest.mark.parametrize("after", AFTER)
@pytest.mark.parametrize("answer", sorted(set(ANSWERS.values())))
def test_a_refusal_stands_in_front_of_what_follows_and_nothing_behind_it(answer, after):
    with translation.override("de"):
        shown = said(answer.format(power="5\u202fW") + after)
    head = shown.split(": ")[0]
    assert ("nicht" in head.lower().split()) == (" not " in answer)
    assert shown.endswith((f"5\u202fW{after[0]}", "möglich.", "Gedruckten.", "9,0\u202fW."))
