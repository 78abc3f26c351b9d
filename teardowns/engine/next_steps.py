"""What to measure next: what each reading that is still missing would say about the largest claim.

Per minute at the bench, for the lines of the rulebook that do not speak yet, for a load test at
the claim, for a request for its voltage, and for a better reading of an input that dominates a
line that speaks. Whatever destroys nothing more comes first.
"""
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from . import information
from .cases import headline_claims
from .columns import EVIDENCE, Frame
from .effort import EFFORT, NON_DESTRUCTIVE, POWERED, STAGES, minutes_for, stage_of
from .judging import Examined
from .lines import Line
from .physics.feedback import MISSED, MISSED_TRACE, MISTAKEN
from .pipeline import Assessment
from .posterior import density
from .rule import CONDITIONS, FAILED, PASSED, SWITCH, Rule
from .silent_lines import silent_lines
from .step_texts import better_text, load_text, readings_text, voltage_text
from .verdicts import WAYS

MOST = 6
WORTH = 0.02             # bits; what would say less is no step. Our own choice
DOMINATES = 0.25         # share of a line's variance from which on a better reading is a step
# The two tests at the claim itself; either answer of each is a line.
HELD, OFFERED = "power/sustained_power", "voltage/offered_voltage"
TESTS = {HELD: ("sustained_power", "failed_power"),
         OFFERED: ("offered_voltage", "refused_voltage")}
TEST_U = 0.015           # relative, of a load set with hand-held meters; common practice, no source
MISUNDERSTOOD = 0.02     # of requests, either way; our own choice


@dataclass(frozen=True, slots=True)
class Asked:
    """The claim that is asked about, and what the evidence says of it so far."""

    power: float                 # W
    voltage: float               # V, NaN: not printed
    current: float               # A, NaN: not printed
    mains: float                 # V, low end
    p: float                     # that it is true
    power_if_untrue: float       # chance that its power is reached nevertheless
    voltage_if_untrue: float     # chance that its voltage is available nevertheless
    case: int
    at: int | None               # its row among the judged voltages; None: 5 V, or none printed
    reached: str                 # stage to which the unit has been taken apart


@dataclass(frozen=True, slots=True)
class Step:
    rule: Rule
    reads: tuple[str, ...]
    text: str
    bits: float
    minutes: float

    @property
    def rate(self) -> float:
        return self.bits / self.minutes

    @property
    def rank(self) -> tuple[bool, float, str]:
        return stage_of(self.reads) not in NON_DESTRUCTIVE, -self.rate, self.rule.id


@np.errstate(invalid="ignore", divide="ignore", over="ignore", under="ignore")
def next_steps(assessment: Assessment, row: int, examined: Examined,
               mine: Sequence[int] | np.ndarray) -> list[dict]:
    """The best steps for one unit; none where nothing would move its largest claim.

    examined, mine : of `pipeline.examine_unit`
    """
    asked = _asked(assessment, row, examined, np.asarray(mine))
    if asked is None or information.entropy(asked.p) < WORTH:
        return []
    rules = assessment.rulebook
    found = [*_power_steps(rules, examined, asked), *_voltage_steps(rules, examined, asked)]
    worth = [step for step in _once(found) if step.bits >= WORTH and _possible(step, asked)]
    return [_as_dict(step) for step in _chosen(worth)]


def _chosen(steps: list[Step]) -> list[Step]:
    """The first by rank, and among them always the one that says most, for it may decide."""
    ranked = sorted(steps, key=lambda step: step.rank)
    first = ranked[:MOST]
    most = max(ranked, key=lambda step: step.bits, default=None)
    return first if most is None or most in first else sorted(
        [*first[:-1], most], key=lambda step: step.rank)


def _as_dict(step):
    return {
        "rule": step.rule.id, "title": step.rule.title, "reads": list(step.reads),
        "text": step.text, "bits": step.bits, "minutes": step.minutes,
        "bits_per_minute": step.rate, "stage": stage_of(step.reads),
    }


def _once(steps: Iterable[Step]) -> Iterable[Step]:
    """One step for the same readings: the line to which they say most."""
    best: dict[tuple[str, ...], Step] = {}
    for step in steps:
        if step.reads not in best or step.bits > best[step.reads].bits:
            best[step.reads] = step
    return best.values()


def _possible(step, asked):
    """A unit whose transformer has been unwound is not powered again."""
    unwound = asked.reached == STAGES[-1]
    return not (unwound and any(EFFORT[code].tool in POWERED for code in step.reads))


def _asked(assessment, row, examined, mine):
    claims = assessment.claims.take(mine)
    head = int(headline_claims(replace(claims, row=np.zeros(len(mine), int)), 1)[0])
    if head < 0:
        return None
    judged, index = assessment.judged, int(mine[head])
    judged_at = np.flatnonzero(examined.voltage.claim == head)
    at = int(judged_at[0]) if judged_at.size else None
    return Asked(
        power=float(claims.claimed_power[head]), voltage=float(claims.voltage[head]),
        current=float(claims.current[head]),
        mains=float(assessment.frame["mains_low"].value[row]),
        p=float(judged.plausibility[index]),
        power_if_untrue=0.0 if at is None else _halves(judged, index, examined, at)[0],
        voltage_if_untrue=1.0 if at is None else _halves(judged, index, examined, at)[1],
        case=int(examined.cases.of_claim[head]), at=at,
        reached=_reached(assessment.frame, row))


def _halves(judged, index, examined, at):
    """How likely the power, and the voltage, holds where the claim as a whole does not.

    As in verdicts.joint_odds.
    """
    by_voltage, by_power, by_both = WAYS[bool(examined.voltage.switched[at])]
    power, voltage = (float(np.clip(p[index], 1e-12, 1 - 1e-12)) for p in (
        judged.plausibility_power, judged.plausibility_voltage))
    power, voltage = power / (1 - power), voltage / (1 - voltage)
    whole = by_voltage * power + by_power * voltage + by_both
    return by_voltage * power / whole, by_power * voltage / whole


def _reached(frame, row):
    """The stage that the readings so far took; no photograph of the board is none of them."""
    return stage_of(
        code for code, column in frame.columns.items()
        if code in EFFORT and column.how[row] == EVIDENCE
        and (code != "photographed_sides" or column.value[row] > 0))


def _power_steps(rules, examined, asked) -> Iterator[Step]:
    evidence = examined.power[0]
    nodes = information.power_nodes(
        examined.grid.points([asked.case])[0], density(evidence.total[[asked.case]])[0],
        asked.power)
    claim = float(np.log(asked.power))
    untrue, met = information.held_chances(nodes, claim, TEST_U)
    # It is held at the claimed voltage, which must be there as well.
    yield _test(rules[HELD], asked, load_text(asked), met, asked.voltage_if_untrue * untrue)
    frame = examined.frames[0].take([asked.case])
    speaking = _speaking(evidence.lines, asked.case)
    yield from _steps(rules.power, frame, speaking, asked, nodes, claim, asked.power_if_untrue)


def _voltage_steps(rules, examined, asked) -> Iterator[Step]:
    if asked.at is None:
        return
    volts, at = examined.voltage, asked.at
    switched = bool(volts.switched[at])
    given = MISUNDERSTOOD + (1 - 2 * MISUNDERSTOOD) * asked.voltage_if_untrue
    yield _test(rules[OFFERED], asked, voltage_text(asked, switched), 1 - MISUNDERSTOOD, given)
    frame, speaking = volts.frame.take([at]), _speaking(volts.lines, at)
    nodes = information.voltage_nodes(volts.x[at], density(volts.total[[at]])[0],
                                      float(volts.stays[at]))
    # A plug of one voltage has no list of capabilities, and nothing to switch.
    lines = tuple(rule for rule in rules.voltage if rule.kind != SWITCH
                  and (switched or "advertised_voltage" not in rule.reads))
    yield from _steps(lines, frame, speaking, asked, nodes, float(np.log(asked.voltage)),
                      asked.voltage_if_untrue)
    if switched:
        switches = tuple(rule for rule in rules.voltage if rule.kind == SWITCH)
        yield from _switch_steps(switches, frame, speaking, asked, float(volts.stays[at]))


def _test(rule, asked, text, true, untrue) -> Step:
    """A test with two outcomes; true, untrue : chance that it is passed."""
    expected = information.bits(asked.p, np.array([true, 1 - true]),
                                np.array([untrue, 1 - untrue]))
    return Step(rule, TESTS[rule.id], text, float(expected),
                EFFORT[TESTS[rule.id][0]].minutes)


def _speaking(lines, row) -> dict[str, tuple[Line, int]]:
    """Lines that speak for a row, by the rule's id, with the place in the line."""
    places = ((line, np.flatnonzero(line.rows == row)) for line in lines)
    return {line.rule.id: (line, int(place[0])) for line, place in places if place.size}


def _steps(rules, frame, speaking, asked, nodes, claim, if_untrue) -> Iterator[Step]:
    """Lines that would speak, and better inputs of those that do."""
    answered = {code for codes in TESTS.values() for code in codes}
    open_ = (rule for rule in rules if not answered.intersection(rule.reads))
    silent = [*silent_lines(open_, frame, speaking, asked.reached)]
    chances = information.line_chances(
        nodes, claim, [one.rule.kind in (PASSED, FAILED) for one in silent],
        np.array([one.sigma for one in silent]), np.array([one.rule.margin for one in silent]))
    for one, gained in zip(silent, _gains(asked, chances, if_untrue), strict=True):
        # Where nothing was lost, there is no line: only what was lost counts.
        expected = gained[1] if one.rule.kind == FAILED else gained.sum()
        yield _step(one.rule, one.reads, readings_text(one.reads), expected, asked)
    better = [*_better(speaking, frame)]
    if better:
        chances = information.input_chances(
            nodes, *(np.array(part) for part in zip(*(one[2:] for one in better), strict=True)))
        for (rule, code, *_), gained in zip(better, _gains(asked, chances, if_untrue),
                                            strict=True):
            yield _step(rule, (code,), better_text(code, frame), gained.sum(), asked)


def _step(rule, reads, text, expected, asked):
    return Step(rule, reads, text, float(expected), minutes_for(reads, asked.reached))


def _gains(asked, chances, if_untrue):
    """(k, outcomes) bits; chances : (2, k, outcomes), the half of the claim that they are about
    untrue and met; if_untrue : chance that this half holds where the claim does not"""
    unmet, met = chances
    return information.gains(np.full(len(met), asked.p), met,
                             if_untrue * met + (1 - if_untrue) * unmet)


def _better(speaking, frame: Frame):
    """(rule, code, ln value, sigma, margin, part) of inputs worth a better reading."""
    for line, place in speaking.values():
        rule, u = line.rule, float(line.u_ln[place])
        if rule.kind in (SWITCH, PASSED, FAILED):
            continue
        for code, part in zip(rule.reads, line.parts[:, place].tolist(), strict=True):
            if code in CONDITIONS or code not in EFFORT or part * part < DOMINATES * u * u:
                continue
            column, effort = frame[code], EFFORT[code]
            left = abs(effort.spread * float(column.value[0]) / float(column.u[0]))
            if left < 0.5:
                taken = abs(part) * float(np.sqrt(1 - left * left))
                yield rule, code, float(np.log(line.value[place])), u, rule.margin, taken


def _switch_steps(rules, frame, speaking, asked, stays) -> Iterator[Step]:
    """Looking for what could switch the output: it is found, or not."""
    sides = int(np.nan_to_num(frame["photographed_sides"].value[0]))
    found = 1 - max(MISSED[min(sides, len(MISSED) - 1)], MISSED_TRACE)
    unmet = stays * MISTAKEN + (1 - stays) * found
    chances = np.array([[[unmet, 1 - unmet]], [[found, 1 - found]]])
    gained = _gains(asked, chances, asked.voltage_if_untrue).sum()
    for one in silent_lines(rules, frame, speaking, asked.reached):
        yield _step(one.rule, one.reads, readings_text(one.reads), gained, asked)
