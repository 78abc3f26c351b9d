"""Scenarios as pages print them, with the level that their steps make; what a set changes."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from django.utils.safestring import mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine import rulebook
from teardowns.engine.risk import BAND_WORDS, SEVERITIES, risk
from teardowns.engine.scenarios import BETWEEN, Scenario
from teardowns.figures.risk_matrix import risk_matrix

from .method_sheet import rule_anchor
from .numbers import chance

LAYERS = {0.0: "no layer counts", 1.0: "one layer counts"}
AS_FOUND, MOVED = "the distance is as found", "the distance is one if a part moved"
REQUIREMENT = "of the requirement under the most lenient assumptions"


def scenario_sheets(scenarios: Sequence[Scenario]) -> list[dict]:
    return [_sheet(scenario) for scenario in scenarios]


def _sheet(scenario):
    done = _risk(scenario)
    return {
        "id": scenario.id, "title": scenario.title,
        "rules": [(rule_anchor(name), rulebook.load()[name].title) for name in scenario.rules],
        "when": AsWritten(f", {said('and')} ".join(map(said, _conditions(scenario))) + "."),
        "injury": f"{scenario.injury} (severity {scenario.severity}: "
                  f"{SEVERITIES[scenario.severity]})",
        "level": done.level, "levels": ", ".join(done.levels),
        "product": f"{_fraction(done)}, {BAND_WORDS[done.band]}",
        "steps": [{"key": step.key, "text": step.text, "p": step.p, "by": step.by,
                   "why": step.why} for step in scenario.steps],
        "matrix": mark_safe(risk_matrix(scenario.title, scenario.severity, done.band)),
    }


def _conditions(scenario) -> Iterator[str]:
    """What has to hold of a result before it triggers the scenario."""
    between = " or ".join(BETWEEN[barrier] for barrier in scenario.barriers)
    yield f"falls short {between}".rstrip()
    if scenario.moved is not None:
        yield MOVED if scenario.moved else AS_FOUND
    if scenario.share:
        yield _range(*scenario.share, scenario.rules)
    for rule in scenario.rules if scenario.reasons else ():
        reasons = rulebook.load()[rule].reasons
        yield f"by this reason: “{' '.join(reasons[why] for why in scenario.reasons)}”"


def _range(least, most, rules):
    if "safety/winding_layers" in rules:
        return LAYERS[least]
    ends = [f"{least:.0%} or more".replace("%", " %")] if least > 0 else []
    ends += [f"less than {most:.0%}".replace("%", " %")] if most < 1 else []
    return f"the reading is {' and '.join(ends)} {REQUIREMENT}"


def changes(before: Sequence[Scenario], after: Sequence[Scenario]) -> list[dict]:
    """Each scenario whose steps another set has otherwise, with its level under both."""
    known = {one.id: one for one in before}
    return [_change(known[one.id], one) for one in after if one.steps != known[one.id].steps]


def _change(old, new):
    done = _risk(old), _risk(new)
    return {
        "id": new.id, "title": new.title,
        "steps": [(step.text, was.p, step.p) for was, step in
                  zip(old.steps, new.steps, strict=True) if was.p != step.p],
        "products": " → ".join(_fraction(one) for one in done),
        "levels": " → ".join(dict.fromkeys(one.level for one in done)),
    }


def _risk(scenario):
    return risk(scenario.severity, [step.p for step in scenario.steps])


def _fraction(done):
    return chance(f"{done.p.numerator}/{done.p.denominator}")
