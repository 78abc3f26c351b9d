"""What a rule is, and the words that declare one.

A rule is one file under rules/: its docstring says in plain words what it is about, its one
decorated function computes. The function bears the file's name; its parameters name what it
reads. rules/power/ and rules/voltage/ hold lines of evidence, rules/checks/ holds checks,
rules/safety/ grades what stands between mains and a hand.
"""
import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import wraps
from typing import Any

LIMIT, PRACTICE, PASSED, FAILED, SWITCH, CHECK, SAFETY = (
    "limit", "practice", "passed", "failed", "switch", "check", "safety")
UNIT = {"power": "W", "voltage": "V"}
# What a rule may read beside the quantities: the mains end, the claim it is asked about, and how
# many tests say the same of it.
CONDITIONS = frozenset({"mains_voltage", "mains_frequency", "output_voltage", "failed_tests"})
# What a shortfall means: the first three can hurt somebody, the others cannot.
HAZARDS = {
    "shock": "electric shock", "fire": "fire", "burn": "burn",
    "energy": "energy use, no hazard", "marking": "marking, no hazard",
    "interference": "interference, no hazard",
}
TARGET = {"power": "continuous output power", "voltage": "highest output voltage"}


@dataclass(frozen=True, slots=True)
class Worked:
    """A published or worked value that the rule reproduces; a test runs it, the method page
    prints it."""

    inputs: Mapping[str, float]    # by parameter, SI
    result: float                  # as published, in the rule's unit
    tolerance: float               # relative
    source: str                    # document and page, or how it was worked out


@dataclass(frozen=True, slots=True)
class Rule:
    """A pure function and what a reader needs to trust it."""

    id: str                    # "power/bulk_capacitor"; stored with results, never reused
    kind: str                  # limit, practice, passed, failed, switch, check or safety
    # "power" or "voltage"; a check: "claim", "port" or "unit"; safety: a kind of subject
    on: str
    title: str                 # as a figure labels it
    reads: tuple[str, ...]     # the parameters of `compute`, in order
    compute: Callable          # lines: arrays in, array out, NaN where an input is NaN
    source: str                # where the formula or the limit stands, to the page
    validity: str              # when it holds
    formula: str               # MathML
    model_error: float = 0.0   # relative, k = 1: how far the formula itself may be off
    margin: float = 0.0        # limits: scale of the designer's margin, in ln
    # (inputs…) → (n,), (n,): how likely a part was mistaken, and how many times the value would be
    # then.
    doubt: Callable | None = None
    optional: frozenset[str] = frozenset()          # may be unknown: `compute` takes NaN
    symbols: Mapping[str, str] = field(default_factory=dict)   # parameter → MathML
    asks: Mapping[str, str] = field(default_factory=dict)      # parameter → open question
    silent: str = "The observation lies outside the conditions for which this line holds."
    silent_ports: str = ""     # the same of a unit with several outputs, where that may be why
    summary: str = ""          # the docstring of the file
    worked: tuple[Worked, ...] = ()
    unless: str = ""           # id of a line that tells the same fact better: silent beside it
    size: Callable | None = None       # habits: the size from which the power follows
    habit: Any = None                  # what turns the size into a power, see habits.py
    spread: Callable | None = None     # (inputs…) → (n,) float, in place of model_error [ln]
    # Of rules about safety:
    measure: str = ""                  # unit of the compared value, SI
    largest: bool = False              # the requirement is the largest allowed value
    hazard: str = ""                   # key of HAZARDS: what a shortfall means
    confidence: str = ""               # "A", "B" or "C", of the requirement in general
    reasons: tuple[str, ...] = ("",)   # what `Graded.why` points at, in plain words

    @property
    def unit(self) -> str:
        return UNIT.get(self.on, "")

    @property
    def required(self) -> tuple[str, ...]:
        return tuple(name for name in self.reads if name not in self.optional)


def limit(*, on, model_error, margin, **rest):
    """A physical limit of a part: it refutes as far as one reading can and supports mildly."""
    return _declare(LIMIT, on=on, model_error=model_error, margin=margin, **rest)


def practice(*, on, model_error, **rest):
    """A habit of the trade: 24 : 1 at most."""
    return _declare(PRACTICE, on=on, model_error=model_error, **rest)


def habit(*, on, prior, **rest):
    """A habit of the trade whose power follows from a size; the function returns the size.

    prior : what turns a size into a power, `power(size)`, with its `spread(size)` in ln. A
    reference set of measured units may take its place.
    """
    def decorate(size):
        compute, spread = by_habit(size, prior)
        _declare(PRACTICE, on=on, size=size, habit=prior, spread=spread, **rest)(compute)
        return compute

    return decorate


def by_habit(size: Callable, habit) -> tuple[Callable, Callable]:
    """(inputs…) → power and (inputs…) → spread, of a habit of this size."""
    @wraps(size)
    def compute(*inputs):
        return habit.power(size(*inputs))

    def spread(*inputs):
        return habit.spread(size(*inputs))

    return compute, spread


def passed(*, on, model_error, **rest):
    """A test passed at the value that the function returns."""
    return _declare(PASSED, on=on, model_error=model_error, **rest)


def failed(*, on, model_error, **rest):
    """A test failed at the value that the function returns."""
    return _declare(FAILED, on=on, model_error=model_error, **rest)


def switch(*, on, **rest):
    """The function returns how much better "can be switched" explains the observations."""
    return _declare(SWITCH, on=on, **rest)


def check(*, on="claim", **rest):
    """A consistency check of a claim, a port or the unit; the function returns an Outcome."""
    return _declare(CHECK, on=on, **rest)


def safety(*, on, hazard, confidence, **rest):
    """A requirement of a safety standard; the function returns a `Graded`, whole columns at once.

    on : "path", "adjacency", "part" or "unit" (engine.subjects.COLUMNS)
    Its parameters are columns of the subject, columns of the unit, codes of quantities, or
    `code_u` for the expanded uncertainty of one.
    """
    def decorate(grade):
        @wraps(grade)
        def compute(*inputs):
            return grade(*inputs).known_as(confidence)

        return _declare(SAFETY, on=on, hazard=hazard, confidence=confidence, **rest)(compute)

    return decorate


def _declare(kind, *, optional=(), **rest):
    def decorate(compute):
        *_, folder, _ = compute.__module__.split(".")
        compute.rule = Rule(
            id=f"{folder}/{compute.__name__}", kind=kind, compute=compute,
            reads=tuple(inspect.signature(compute).parameters), optional=frozenset(optional),
            summary=inspect.getdoc(inspect.getmodule(compute)) or "", **rest,
        )
        return compute

    return decorate
