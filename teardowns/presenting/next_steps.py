"""What to measure next, as the unit page and the bench sheet print it."""
from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.gains import Gain, gain_bar, gain_bars

from .looked_states import LIMIT_ONLY
from .method_sheet import rule_anchor
from .numbers import THIN, claimed_watts, number, with_unit

STAGES = {"outside": "without opening it", "opened": "with the case open",
          "desoldered": "with the part unsoldered", "unwound": "with the transformer unwound"}
FUTILE = {"looked, not found", "not readable", LIMIT_ONLY}       # there is nothing more to read
CAPTION = (
    "Expected information about the claim of {claim}, per minute at the bench: what a reading of "
    "the usual quality would say, given all that is known. One bit settles a claim that stands at "
    "even odds. What destroys nothing more stands first."
)
NOTHING = "Nothing left to measure would move the claim of {claim} noticeably."
NO_CLAIM = "No printed power was recorded, so that no reading can be weighed against one."


@dataclass(frozen=True, slots=True)
class PanelStep:
    text: str
    cost: str               # "15 min, 0.80 bits"
    bar: SafeString


def open_steps(report: dict, states: dict[str, str]) -> list[dict]:
    """The engine's steps, without what somebody looked for in vain."""
    return [step for step in report.get("next_steps", ())
            if not any(states.get(code) in FUTILE for code in step["reads"])]


def steps_figure(report: dict, states: dict[str, str]) -> SafeString | str:
    """The steps as bars; "" where there are none."""
    steps = open_steps(report, states)
    if not steps:
        return ""
    caption = CAPTION.format(claim=_claim(report))
    return mark_safe(gain_bars(caption, [_gain(step) for step in steps]))


def without_steps(report: dict) -> str:
    """What is said where no step is worth its time."""
    if report["headline"] is None:
        return NO_CLAIM
    return NOTHING.format(claim=_claim(report))


def _claim(report):
    return claimed_watts(report["claims"][report["headline"]]["power"])


def _gain(step):
    return Gain(
        text=step["text"], rule=step["title"], stage=STAGES[step["stage"]],
        rate=step["bits_per_minute"], rate_text=number(step["bits_per_minute"], 2),
        whole_text=f"{bits(step['bits'])} in {minutes(step['minutes'])}",
        href=f"{reverse('method')}#{rule_anchor(step['rule'])}",
    )


def bits(value: float) -> str:
    return f"{number(value, 2)}{THIN}bit"


def minutes(value: float) -> str:
    return with_unit(f"{value:.0f}", "min")


def panel_steps(report: dict, states: dict[str, str], most: int) -> list[PanelStep]:
    """The first few steps, each with a small bar against the best of them."""
    steps = open_steps(report, states)[:most]
    best = max((step["bits_per_minute"] for step in steps), default=1.0)
    return [
        PanelStep(step["text"], f"{minutes(step['minutes'])}, {bits(step['bits'])}",
                  mark_safe(gain_bar(step["bits_per_minute"] / best)))
        for step in steps]
