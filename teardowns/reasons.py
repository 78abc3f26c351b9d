"""The reasons that a report or a decision may give: one list, each with the rule that it applies.

A code is never reused for another rule: statements of reasons cite it for good, with the words of
the rule as they stood on the day. How long a report may wait is the project's own target (urgent
personal data one hour, all else a day): common practice, no source.
"""
from __future__ import annotations

from dataclasses import dataclass

URGENT, SERIOUS, USUAL = 3, 2, 1         # how much harm may come of waiting
HARM_WORDS = {URGENT: "urgent", SERIOUS: "serious", USUAL: "usual"}


@dataclass(frozen=True, slots=True)
class Reason:
    """Why something is reported or decided."""

    code: str
    words: str                      # as a person chooses it
    rule: str                       # as a statement of reasons cites it
    harm: int = USUAL
    hours: int = 24                 # within which a report of it is looked at


REASONS = (
    Reason("personal_data", "It shows personal data: a face, a name, an address, a serial number",
           "Records show the specimen, no personal data of anybody.", URGENT, 1),
    Reason("risk_to_people", "It tells people to do something that may hurt them",
           "A record describes what was found. It calls nothing safe to use or to open that the "
           "evidence does not show to be so.", SERIOUS, 4),
    Reason("intent_or_others", "It speaks about intent, the law or other units",
           "A record speaks about the unit examined and the method, never about intent, the law or "
           "units that were not examined.", SERIOUS),
    Reason("not_this_unit", "A picture or a reading is not of this unit",
           "All evidence of a record comes from the one specimen that it names.", SERIOUS),
    Reason("wrong_reading", "A reading is wrong, or says more than was seen",
           "Evidence states what was measured or read off, how, and how surely.", USUAL),
    Reason("others_rights", "It uses somebody’s picture or text without leave",
           "Contributors own what they contribute, or have leave to license it.", USUAL),
    Reason("spam", "It advertises, or has nothing to do with chargers",
           "Records, comments and replies are about opened chargers.", USUAL),
    Reason("attack", "It attacks a person",
           "Discussion is about evidence, not about persons.", SERIOUS),
    Reason("duplicate", "The same specimen is recorded twice",
           "One specimen has one record.", USUAL),
    Reason("other", "Something else",
           "The rule is named in the facts.", USUAL),
)
# Reasons that only a decision gives.
DECISION_REASONS = (
    Reason("incomplete", "Evidence is missing that the claim or finding rests on",
           "A record is published when what it says can be checked by others."),
    Reason("not_supported", "The report was looked at, and nothing breaks a rule",
           "Content that breaks no rule stays."),
    Reason("put_right", "What was reported has been put right",
           "Content that was put right stays, with its history."),
    Reason("looked_at_again", "Another person looked again and decided otherwise",
           "A decision is looked at again by somebody who did not take it."),
    Reason("abuse", "The account was used to flood, to deceive or to attack",
           "An account is one person’s, who takes part in good faith."),
    Reason("trust", "Trust of a role: given, changed or taken back",
           "A role is given and taken by two different people, with a reason."),
)
BY_CODE = {reason.code: reason for reason in (*REASONS, *DECISION_REASONS)}
REPORTABLE = tuple((reason.code, reason.words) for reason in REASONS)
DECIDABLE = tuple((reason.code, reason.words) for reason in BY_CODE.values())
# Reasons to leave something as it is, to give it back, or of roles alone: nothing is taken by them.
NEVER_AGAINST = {"not_supported", "put_right", "looked_at_again", "trust"}
AGAINST = tuple(choice for choice in DECIDABLE if choice[0] not in NEVER_AGAINST)
