"""What a rule computes, and what the report on one unit says of it."""
import numpy as np

from teardowns.engine.report import report
from tests.engine.make import judge


def value(rule, *inputs):
    """The rule's result for one row of numbers."""
    with np.errstate(invalid="ignore", divide="ignore"):
        return float(rule(*(np.array([float(number)]) for number in inputs))[0])


def line(rule, observations, claims, ports=()):
    """The rule's line in the unit's report; None where evidence is missing."""
    found = report(judge(observations, claims, ports=ports), 0)["lines"]
    return next((each for each in found if each["id"] == rule.rule.id), None)


def ends(rule, observations, claims, ports=()):
    """The line's value at the low and the high mains end; None where it does not speak."""
    found = line(rule, observations, claims, ports)
    return [at and at["value"] for at in found["ends"].values()] if found else [None, None]


def questions(rule, observations, claims):
    """The open questions that the unit leaves on behalf of the rule."""
    asked = report(judge(observations, claims), 0)["open_questions"]
    return [each["text"] for each in asked if each["rule"] == rule.rule.id]


def outcomes(rule, observations, claims, ports=()):
    """The check's outcome for each claim, port or unit that gave it something to check."""
    return [each["outcome"] for each in checks(rule, observations, claims, ports)]


def checks(rule, observations, claims, ports=()):
    """All that the report says of the check."""
    done = report(judge(observations, claims, ports=ports), 0)["checks"]
    return [each for each in done if each["id"] == rule.rule.id]
