"""What the seven verdict words mean to a reader, and when each is given."""
from typing import NamedTuple

from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.verdicts import CONFLICT, STRONG, WEAK
from teardowns.figures.marks import verdict_chip


class VerdictWord(NamedTuple):
    word: str
    meaning: str
    threshold: str
    chip: SafeString


def _explained(word, meaning, threshold):
    return VerdictWord(word, meaning, threshold, mark_safe(verdict_chip(word)))


VERDICT_WORDS = (
    _explained("supported", "The evidence supports the claim.",
               "Plausibility at least 0.9: of a claimed power by itself too, and by more than "
               "habits of the trade. Below the unit’s highest voltage a test has to have been "
               "passed, for a power a load held. Not by tests alone that stopped well below the "
               "claim, not for a voltage that has to be switched to and that nobody saw or read "
               "in a list, and not where a load smaller than the claim was lost at an output "
               "that nobody named."),
    _explained("possible",
               "More speaks for the claim than against it, yet not enough to rely on.",
               "Plausibility at least 0.5, and not supported."),
    _explained("doubtful",
               "More speaks against the claim than for it, yet not enough to reject it.",
               "Plausibility at least 0.1 and below 0.5, or lower by habits of the trade alone."),
    _explained("implausible", "The evidence does not support the claim.",
               "Plausibility below 0.1, and not by habits of the trade alone."),
    _explained("not attainable on this evidence",
               "A physical limit of a part, or a load test, leaves the claim no room.",
               "Plausibility below 0.01 at both mains ends, and a limit, a failed test or the "
               f"feedback path alone speaks against it with {STRONG:g} decibans or more."),
    _explained("no evidence", "Too little was recorded to say anything. This is not a pass.",
               f"No line of evidence, nor all of them together, reaches {WEAK:g} decibans."),
    _explained("evidence contradicts itself",
               "A passed test lies above a limit: one of the two observations must be wrong.",
               f"A passed test lies more than {CONFLICT:g} combined standard uncertainties above "
               "a limit or a failed test in the same conditions. The two are named."),
)
CHIPS = {word.word: word.chip for word in VERDICT_WORDS}
