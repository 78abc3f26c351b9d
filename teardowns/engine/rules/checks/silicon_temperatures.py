"""Silicon that is cool enough on a bench gets hotter in the warmest room a charger is made for.

Transformer, capacitors, board and case are graded by rules about safety; no table limits silicon.
Plates seldom print the room; a limit that is passed only in the warmer one decides nothing.
"""
from math import inf, isnan, nan

from teardowns.engine.mathml import EQ, MINUS, PLUS, equation, paren, sym, word
from teardowns.engine.nameplate import largest_power
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.temperatures import temperature_at_ambient
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

RATED = 40.0                   # °C of the air
USUAL, MOST = 110.0, 150.0     # °C of the part's outside; between them its data sheet decides
READING = 3.0                  # K, two standard uncertainties of a thermocouple or an IR reading
SAME_LOAD = 0.05               # how far the load may lie from the claim and still count as it


@check(
    on="unit",
    title="Silicon in the warmest room",
    source="Shift to the highest rated ambient: IEC 62368-1, B.2.6, from memory. Silicon 150 °C by "
           "usual data sheets; 110 °C on its outside: common practice, no source.",
    validity="Steady readings on the surface of the part, ± 3 K, at a load that was noted. A "
             "rated ambient of 40 °C is usual for chargers and seldom printed.",
    formula=equation(sym("T", "40"), EQ, sym("T"), PLUS,
                     paren(word("40 °C"), MINUS, sym("T", "a"))),
    optional=("switch_temperature", "output_rectifier_temperature"),
    symbols={"ambient_temperature": sym("T", "a"), "switch_temperature": sym("T", "Q"),
             "output_rectifier_temperature": sym("T", "D")},
)
def silicon_temperatures(ambient_temperature, temperature_load, switch_temperature,
                         output_rectifier_temperature, claimed_powers):
    parts = {"primary switch": switch_temperature,
             "output rectifier": output_rectifier_temperature}
    seen = {name: at for name, at in parts.items() if not isnan(at)}
    if not seen:
        return None
    claim = largest_power(claimed_powers)
    share = temperature_load / claim if claim > 0 else nan
    spans = {name: _span(at, ambient_temperature) for name, at in seen.items()}
    over = [name for name, (low, _) in spans.items() if low > MOST + READING]
    unsure = [name for name, (_, high) in spans.items() if high > USUAL]
    outcome, sentence = _judged(over, unsure, share)
    if isnan(ambient_temperature):
        sentence += " The temperature of the air was not recorded."
    readings = {name: _shown(at, ambient_temperature) for name, at in seen.items()}
    return Outcome(outcome, f"{_said(readings, ambient_temperature)}. {sentence}",
                   {**readings, "load": temperature_load, "claim": claim})


def _span(at, ambient):
    """The least and the most that the part reaches in the rooms that count. [°C]"""
    if isnan(ambient):
        return at, inf
    shifted = temperature_at_ambient(at, ambient, RATED)
    return min(at, shifted), shifted


def _shown(at, ambient):
    return at if isnan(ambient) else temperature_at_ambient(at, ambient, RATED)


def _said(readings, ambient):
    where = "As measured" if isnan(ambient) else f"In air of {RATED:.0f} °C"
    return f"{where}: " + ", ".join(f"{name} {plain(at, '°C')}" for name, at in readings.items())


def _judged(over, unsure, share):
    if over:
        said = f"In the unit examined, above {MOST:.0f} °C: {', '.join(over)}"
        if share <= 1 + SAME_LOAD:
            return INCONSISTENT, f"{said}. That is on the bench, before any correction."
        return CANNOT_TELL, f"{said}, {_load(share)}."
    if unsure:
        return CANNOT_TELL, (f"Whether that is allowed depends on the data sheet, {USUAL:.0f} to "
                             f"{MOST:.0f} °C: {', '.join(unsure)}.")
    if not share >= 1 - SAME_LOAD:
        return CANNOT_TELL, f"Within limits, {_load(share)}."
    return CONSISTENT, "Within limits at the claimed power."


def _load(share):
    if isnan(share):
        return "at a load or for a claim that was not recorded"
    return f"but the load was {plain(100 * share, '%')} of the claimed power"
