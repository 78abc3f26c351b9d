"""Parts that are cool enough on a bench get hotter in the warmest room that a charger is made for.

Parts are corrected to air of 40 °C, the case is not: what may be touched is measured at 25 °C.
Plates seldom print the room; a limit that is passed only in the warmer one decides nothing.
"""
from dataclasses import dataclass
from math import inf, isnan, nan

from teardowns.engine.mathml import EQ, MINUS, PLUS, equation, paren, sym, word
from teardowns.engine.nameplate import largest_power
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.temperatures import (
    temperature_at_ambient,
    winding_temperature_at_ambient,
)
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

RATED, TOUCH = 40.0, 25.0      # °C of the air
READING = 3.0                  # K, two standard uncertainties of a thermocouple or an IR reading
SAME_LOAD = 0.05               # how far the load may lie from the claim and still count as it


@dataclass(frozen=True, slots=True)
class Place:
    """Allowed for usual parts, allowed at most [°C], and what the difference depends on."""

    name: str
    usual: float
    most: float
    depends: str


TRANSFORMER = Place("transformer", 110.0, 140.0, "the thermal class of its insulation")
CAPACITOR = Place("bulk capacitor", 85.0, 105.0, "the temperature printed on it")
SWITCH = Place("primary switch", 110.0, 150.0, "its data sheet")
RECTIFIER = Place("output rectifier", 110.0, 150.0, "its data sheet")
CASE = Place("case", 77.0, 95.0, "the standard that the unit was made to")


@check(
    on="unit",
    title="Temperatures in the warmest room",
    source="Shift to the highest rated ambient: IEC 62368-1, B.2.6. Case 77 °C at 25 °C without "
           "shift: IEC 62368-1, table 38, as discussed by product-safety engineers in 2020; 95 °C "
           "by the older IEC 60950-1. Winding: class 130 allows 120 °C, 110 °C by thermocouple, "
           "the limit that test reports of chargers name; class 155 allows 140 °C (IEC 60950-1, "
           "table 4B). Electrolytic capacitors as printed, 85 or 105 °C; silicon 150 °C, and "
           "110 °C on its outside as common practice. Clauses and tables from memory.",
    validity="Steady readings on the surface of the part, ± 3 K, at a load that was noted. A "
             "rated ambient of 40 °C is usual for chargers and seldom printed.",
    formula=equation(sym("T", "40"), EQ, sym("T"), PLUS,
                     paren(word("40 °C"), MINUS, sym("T", "a"))),
    optional=("transformer_temperature", "bulk_capacitor_temperature", "switch_temperature",
              "output_rectifier_temperature", "case_temperature"),
    symbols={"ambient_temperature": sym("T", "a"), "transformer_temperature": sym("T", "T1"),
             "bulk_capacitor_temperature": sym("T", "C"), "switch_temperature": sym("T", "Q"),
             "output_rectifier_temperature": sym("T", "D"), "case_temperature": sym("T", "case")},
)
def temperatures_at_rated_ambient(
        ambient_temperature, temperature_load, transformer_temperature,
        bulk_capacitor_temperature, switch_temperature, output_rectifier_temperature,
        case_temperature, claimed_powers):
    parts = [(TRANSFORMER, transformer_temperature), (CAPACITOR, bulk_capacitor_temperature),
             (SWITCH, switch_temperature), (RECTIFIER, output_rectifier_temperature),
             (CASE, case_temperature)]
    seen = [(place, _span(place, at, ambient_temperature)) for place, at in parts if not isnan(at)]
    if not seen:
        return None
    claim = largest_power(claimed_powers)
    share = temperature_load / claim if claim > 0 else nan
    over = [place for place, (low, _) in seen if low > place.most + READING]
    unsure = [place for place, (_, high) in seen if high > place.usual]
    outcome, sentence = _judged(over, unsure, share)
    if isnan(ambient_temperature):
        sentence += " The temperature of the air was not recorded."
    readings = {place.name: _shown(place, at, ambient_temperature)
                for place, at in parts if not isnan(at)}
    return Outcome(outcome, f"{_said(readings, ambient_temperature)}. {sentence}",
                   {**readings, "load": temperature_load, "claim": claim})


def _span(place, at, ambient):
    """The least and the most that the place reaches in the room that counts. [°C]"""
    if place is CASE:
        shifted = at + TOUCH - (RATED if isnan(ambient) else ambient)
        return (shifted, inf) if isnan(ambient) else (min(at, shifted), max(at, shifted))
    if isnan(ambient):
        return at, inf
    shift = winding_temperature_at_ambient if place is TRANSFORMER else temperature_at_ambient
    return min(at, temperature_at_ambient(at, ambient, RATED)), shift(at, ambient, RATED)


def _shown(place, at, ambient):
    if place is CASE or isnan(ambient):
        return at
    return temperature_at_ambient(at, ambient, RATED)


def _said(readings, ambient):
    where = "As measured" if isnan(ambient) else f"In air of {RATED:.0f} °C"
    names = {} if isnan(ambient) else {CASE.name: "case as measured"}
    return f"{where}: " + ", ".join(f"{names.get(name, name)} {plain(at, '°C')}"
                                    for name, at in readings.items())


def _judged(over, unsure, share):
    if over:
        said = f"In the unit examined, above what such parts are made for: {_limits(over)}"
        if share <= 1 + SAME_LOAD:
            return INCONSISTENT, f"{said}. That is on the bench, before any correction."
        return CANNOT_TELL, f"{said}, {_load(share)}."
    if unsure:
        why = "; ".join(f"{place.name}, {place.usual:.0f} or {place.most:.0f} °C by {place.depends}"
                        for place in unsure)
        return CANNOT_TELL, f"Whether that is allowed depends: {why}."
    if not share >= 1 - SAME_LOAD:
        return CANNOT_TELL, f"All within limits, {_load(share)}."
    return CONSISTENT, "All within limits at the claimed power."


def _limits(over):
    return ", ".join(f"{place.name} ({place.most:.0f} °C)" for place in over)


def _load(share):
    if isnan(share):
        return "at a load or for a claim that was not recorded"
    return f"but the load was {plain(100 * share, '%')} of the claimed power"
