"""Awkward contents for the style guide: too long, beyond the scale, unknown, or marked up."""
from django.utils.safestring import mark_safe

from core.templatetags.said import said_picture
from core.words.said import said
from teardowns.engine.findings import NO_SCENARIO
from teardowns.engine.risk import BESIDE, ILLUSTRATION, SOURCE
from teardowns.figures.barrier_map import Span, barrier_map
from teardowns.figures.budget import Part, budget_bars
from teardowns.figures.capability import Capability
from teardowns.figures.gains import Gain, gain_bars
from teardowns.figures.ladder import Claimed, Rung, evidence_ladder, ladder_axis
from teardowns.figures.marks import grade_mark
from teardowns.figures.risk_matrix import risk_matrix
from teardowns.figures.strip import strip
from teardowns.figures.weights import Weight, weight_bars

from .facet_lists import facet_lists
from .findings_section import Finding, confirmed_words
from .safety_points import Point
from .unit_rows import UNCLAIMED, UnitRow, joined_rows, row_markup
from .verdict_words import CHIPS

LONG = "Adapterkombination-ohne-jede-Trennstelle-mit-Sicherheitsnetzteil-MODELL-QX5500-EUSW-B"


def rows():
    rows = [
        _row(LONG, "plug-in charger", "claimed 240 W", "14.0 to 260 W", "serious",
             "not attainable on this evidence", (240, 14, 60, 260)),
        _row("<b>“5V⎓2A” & more</b>", "Orbanel & Söhne · O/2 · desktop adapter",
             "no power claim", "unknown", "", "no evidence", (None, None, None, None)),
        _row("Unit without a claim to judge", "other", "claimed 1.25 W", "unknown", "low", "",
             (1.25, None, None, None)),
    ]
    found = mark_safe("marking <mark>QX5500</mark>EUSW-B · plate <mark>5V⎓2A</mark>")
    return joined_rows([row_markup(row) for row in rows], [found, "", ""])


def _row(title, origin, claimed, capability, risk, verdict, powers):
    hazards = ("electric shock", "fire") if risk else ()
    return UnitRow(0, "#rows", title, origin, "2026-02-28", said(claimed), capability,
                   "held 14.2 W, did not hold 15.6 W (230 V)", risk, hazards,
                   said_picture(CHIPS.get(verdict, UNCLAIMED)), mark_safe(strip(*powers)), "")


def facets():
    """A value that is chosen, many values, none known, and words that are too long."""
    many = [(f"QX{number}", f"QX{number}") for number in range(5500, 5520)]
    values = {"verdict": [("possible", "possible"), ("doubtful", "doubtful"), ("other", LONG)],
              "controller": many, "family": []}
    counts = {"verdict": {"possible": 12345, "other": 1},
              "controller": {code: 3 for code, _ in many}, "family": {}}
    labels = {"verdict": "Verdict", "controller": "Primary controller", "family": "Board family"}
    return facet_lists(labels, values, counts, {"verdict": ("doubtful",)})


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


def barriers():
    """Every grade, a band, a cut gap, a thin wall, nothing measured, no requirement known."""
    return mark_safe(barrier_map("Measured and required distances.", [
        ("Mains side to output: reinforced insulation is required", [
            _path(LONG, "creepage, photo with a scale", "falls short", 2.2, 0.3, 4.8, 5.0),
            _path("Tape <edge>", "creepage", "cannot tell", 5.2, 0.5, 5.0, 5.8),
            _path("Under the potting", "clearance, coated", "cannot tell", 1.1, 0.1, None, None),
            _path("Across the whole board", "clearance", "meets", 41.0, 0.1, 3.0, 3.0),
        ]),
        ("Mains side to the outside of the case: reinforced insulation is required", [
            _path("Case wall", "through solid insulation", "falls short", 0.3, 0.05, 0.4, 0.4),
            _path("Seam", "clearance", "cannot tell", None, None, 3.0, 3.0),
        ]),
    ]))


def _path(place, detail, grade, value, u, low, high):
    measured = "not looked at" if value is None else f"{value:g} ± {u:g} mm"
    ends = dict.fromkeys(f"{end:g}" for end in (low, high) if end is not None)
    return Span(place, detail, "#figures", grade, value, u, low, high, measured,
                f"{' to '.join(ends)} mm" if ends else "", "", "#figures")


def points():
    """One that falls short with all its grounds, one that is open with what would settle it."""
    return [
        Point("Clearance", LONG, "#points", mark_safe(grade_mark("falls short")), "electric shock",
              "In the unit examined, the clearance was 1.80 ± 0.10 mm; the tabulated figure is "
              "3 mm. It lies below the tabulated figure under every documented assumption.",
              "60 % of what is required",
              "chance that it falls short, by the scatter of the reading: > 0.999",
              "two published sources agree on the figure",
              [("#points", "A1"), ("#points", "A3 to A9")], [], "#points"),
        Point("Touch current", "", "", mark_safe(grade_mark("cannot tell")), "electric shock",
              "Touch current: not recorded. The evidence does not decide it.", "", "", "", [],
              ["How much current flows from the output to earth?",
               "Which <capacitance> lies across the barrier?"], "#points"),
    ]


def findings():
    """One with long words and a step that a person set, and what has no scenario."""
    steps = [{"text": LONG, "p": "1/20", "by": "mona", "why": "Seen <twice> & written down."},
             {"text": "touched while it is plugged in", "p": "1/2", "by": "this rulebook",
              "why": "An assumption for a screening, from no publication."}]
    one = Finding(
        "Distance of 50 to 80 % of the requirement", "serious", "High one band less probable.",
        "In the unit examined, the clearance comes to 1.80 ± 0.10 mm.",
        [("#points", f"Clearance: {LONG}"), ("#points", "Creepage: slot")], steps,
        "1/40, more than 1/100", "electrocution (severity 4: fatal, or could be)",
        "Chance that it falls short, by the scatter of the reading: 0.980.",
        confirmed_words(1), False,
        mark_safe(risk_matrix("A scenario", 4, 4)))
    return {"findings": [one], "nothing": "", "untold": [("#points", "Rated voltage of the fuse")],
            "no_scenario": NO_SCENARIO, "illustration": ILLUSTRATION, "source": SOURCE,
            "beside": BESIDE, "reach": "Reach, which never changes a level: not known."}
