"""Awkward contents for the style guide: too long, beyond the scale, unknown, or marked up."""
from django.utils.safestring import mark_safe

from teardowns.figures.budget import Part, budget_bars
from teardowns.figures.capability import Capability
from teardowns.figures.gains import Gain, gain_bars
from teardowns.figures.ladder import Claimed, Rung, evidence_ladder, ladder_axis
from teardowns.figures.strip import strip
from teardowns.figures.weights import Weight, weight_bars

from .unit_rows import UNASSESSED, UnitRow
from .verdict_words import CHIPS

LONG = "Adapterkombination-ohne-jede-Trennstelle-mit-Sicherheitsnetzteil-MODELL-QX5500-EUSW-B"


def rows():
    return [
        _row(LONG, "plug-in charger", "claimed 240 W", "14.0 to 260 W",
             "not attainable on this evidence", (240, 14, 60, 260)),
        _row("<b>“5V⎓2A” & more</b>", "Orbanel & Söhne · O/2 · desktop adapter",
             "no power claim", "unknown", "no evidence", (None, None, None, None)),
        _row("Unit without an assessment", "other", "claimed 1.25 W", "unknown", "",
             (1.25, None, None, None)),
    ]


def _row(title, origin, claimed, capability, verdict, powers):
    return UnitRow("#rows", title, origin, "2026-02-28", claimed, capability,
                   CHIPS.get(verdict, UNASSESSED), mark_safe(strip(*powers)))


def ladder():
    """One line of each kind, two without a value, a claim near the edge."""
    rungs = [
        Rung("limit", "Bulk capacitor, half-cycle energy", LONG, 14.7, 11, 19.7, "14.7",
             "11.0 to 19.7", "#figures"),
        Rung("practice", "Whole mass", "46.2 g, cable left out", 31, 12, 80, "31", "12 to 80"),
        Rung("passed", "Held regulation", "12 W for 30 min", 12, 11.7, 12.3, "at least 12.0",
             "11.7 to 12.3"),
        Rung("failed", "Left regulation", "17.2 W", 17.2, 16.8, 17.6, "below 17.2",
             "16.8 to 17.6"),
    ]
    found = Capability(14.6, 13.1, 16.7, [(11, 0.02), (13, 0.5), (14.6, 1), (16, 0.6), (19, 0.01)],
                       "× 6.8")
    return mark_safe(evidence_ladder(
        "Continuous output power at 100 V, 50 Hz; logarithmic axis in watts.",
        ladder_axis(rungs, [100], [found]), rungs, Claimed(100, "claimed 100 W"), found,
        ("Capability", "14.6<small>13.1 to 16.7</small>"),
    ))


def weights():
    return mark_safe(weight_bars(
        "Weight of evidence, in decibans: ten mean a factor of ten in the odds.",
        [
            Weight("failed", "Left regulation", -431, "−431", "against", "#figures"),
            Weight("limit", "Bulk capacitor, half-cycle energy", -66.2, "−66.2", "against"),
            Weight("practice", "Whole mass", 0.2, "+0.2", "for"),
            Weight("passed", "Held regulation", 14.1, "+14.1", "for"),
        ],
    ))


def budget():
    return mark_safe(budget_bars(
        "What each input adds to the standard uncertainty of the result, in watts.", "W",
        [
            Part("Lowest bus voltage V<sub>min</sub>", "68 ± 13 V", 2.5, "2.50 W", "91 % of it"),
            Part("Capacitance C", "15.2 ± 0.3 µF", 0.004, "0.00 W", "less than 1 % of it"),
        ],
        Part("Combined", "root of the sum of squares", 2.62, "2.62 W", ""),
    ))


def gains():
    return mark_safe(gain_bars(
        "Expected information about the claim of 100 W, per minute at the bench.",
        [
            Gain("Read off: marking of the bulk capacitors.", "Bulk capacitor",
                 "with the case open", 0.585, "0.58", "0.58 bit in 1 min", "#figures"),
            Gain(f"Look up in the part’s data sheet: {LONG}.", "Controller", "with the case open",
                 0.0008, "0.00080", "0.029 bit in 36 min"),
        ],
    ))
