"""What is given out of units: rows of lists, the record, its versions."""
from typing import Any, Literal

from .fields import Told, following, told, unknown


class UnitRow(Told):
    """A public unit by what its version that stands says; SI units, null where nobody knows."""

    unit: int = told("Its number, which stays.", 8)
    href: str = told("Where the whole of it is read.", "/api/v1/units/8")
    page: str = told("The page for people.", "/units/8/")
    title: str = told("What lists call it.", "Veltrice VQ-45, labelled 45 W")
    maker: str = told("As printed; who really made it stays open.", "Veltrice")
    model: str = told("As printed.", "VQ-45")
    kind: str = told("What it is.", "charger")
    channel: str = told("Kind of shop that it came from.", "marketplace")
    published_at: str = told("When the version that stands was published.",
                             "2026-11-26T06:25:14+00:00")
    verdict: str = told("On its largest claim.", "doubtful")
    claimed_power: float | None = unknown("Largest claimed power, W.", 45.0)
    plausibility: float | None = unknown("That the largest claim holds, 0 to 1.", 0.21)
    capability: float | None = unknown("Continuous output power, median, W.", 33.1)
    capability_low: float | None = unknown("The same, 5 %, W.", 28.4)
    capability_high: float | None = unknown("The same, 95 %, W.", 40.9)
    measured_power: float | None = unknown(
        "Between a load that was held and one a little higher that was too much, W.", 32.0)
    load_held: float | None = unknown("Highest load that the unit as a whole held, W.", 31.0)
    load_lost: float | None = unknown("Lowest load above it at which it failed, W.", 33.0)
    load_mains: float | None = unknown("Mains voltage of that test, V.", 230.0)
    gap: float | None = unknown("Claimed power over capability.", 1.36)
    risk: int = told("0 none found, 1 low … 4 serious.", 2)
    flags: int = told("Points for a reviewer that have no level of risk.", 1)
    hazards: list[str] = told("Kinds of hazard found.", ["shock"])
    year: int | None = unknown("It was obtained in.", 2026)
    reach: int | None = unknown("Sales that its listing showed.", 1200)
    completeness: float | None = unknown("Share of what is asked for that was looked at.", 0.64)
    topology: str = told("Of the converter; empty where not known.", "flyback")
    controller: str = told("Marking of the primary controller; empty where not known.", "KX7731")
    connectors: list[str] = told("Kinds of its output connectors.", ["usb_c"])
    mass: float | None = unknown("Without cable and ballast, kg.", 0.061)
    volume: float | None = unknown("Of the case, m³.", 0.000064)
    bulk_capacitance: float | None = unknown("Of all bulk capacitors, F.", 0.000033)
    insulation_margin: float | None = unknown(
        "Weakest measured distance across the barrier over its requirement.", 1.12)
    families: list[str] = told("Slugs of the board families that it belongs to.", ["mb-0714"])


class UnitPage(Told):
    """A page of units."""

    total: int = told("How many there are on all pages.", 1)
    units: list[UnitRow] = told("The rows, in the order asked for.", None)
    next: str = following()
    counts: dict[str, dict[str, int]] = told(
        "By facet and value, how many units there would be with that value, the facet's own "
        "choices left aside.", {"verdict": {"doubtful": 1}})


class Digests(Told):
    evidence: str = told("SHA-256 of the evidence that was assessed.", "77de62df" * 8)
    document: str = told("SHA-256 of the file that the record’s page offers, without what "
                         "stands beside the evidence (replies, licences).", "0c1f88ab" * 8)


class Licence(Told):
    measurements: str = told("SPDX name, of numbers and of texts read off the unit.", "CC0-1.0")
    works: str = told("SPDX name, of notes, captions and photos.", "CC-BY-4.0")
    attribution: str = told("Whom to name for the works.", "alice")


class Reply(Told):
    """What a maker or seller answered, as it was sent."""

    by: str = told("Whose statement it is.", "Veltrice Ltd")
    about: str = told("Scenario of the finding or name of the row; empty for the whole record.",
                      "pri_sec_distance_below_half")
    received: str = told("Day.", "2026-11-26")
    version: int = told("Of the reply.", 1)
    language: str = told("Of its text.", "en")
    text: str = told("Plain text.", "The slot was widened in later boards.")
    disputes: bool = told("Whether it disputes the finding.", True)
    answer: str = told("What came of the dispute; empty while it is open.", "")


class Finding(Told):
    """A hazard found in the unit examined, with the replies to it beside it."""

    scenario: str = told("Its code.", "pri_sec_distance_below_half")
    title: str = told("In words.", "Distance below half of the requirement")
    hazard: str = told("shock, fire or burn.", "shock")
    level: str = told("Of the risk.", "medium")
    p: float = told("Of the injury, over the life of the unit.", 0.00025)
    severity: int = told("1 to 4.", 4)
    certainty: float | None = unknown("That it falls short, 0 to 1.", 0.98)
    confidence: str = told("How well the requirement is known: A, B or C.", "A")
    sentence: str = told("What was found, in the unit examined.",
                         "In the unit examined, the creepage comes to 2.1 mm; 5 mm are asked for.")
    evidence: list[str] = told("Names of the rows that it rests on.",
                               ["insulationobservation/slot"])
    replies: list[Reply] = told("Of makers and sellers, to this finding.", [])


class ClaimVerdict(Told):
    """What the evidence says about one printed claim."""

    claim: str = told("Name of the row.", "claim/out-20v")
    printed: str = told("As printed.", "20V 2.25A")
    text: str = told("As read.", "20 V ⎓ 2.25 A (45 W)")
    voltage: float | None = unknown("V", 20.0)
    current: float | None = unknown("A", 2.25)
    power: float | None = unknown("W", 45.0)
    verdict: str = told("supported, possible, doubtful, implausible, not attainable on this "
                        "evidence, no evidence, or evidence contradicts itself.", "doubtful")
    plausibility: float | None = unknown("0 to 1; even odds without evidence.", 0.21)
    decibans: float | None = unknown("Total weight of the evidence.", -5.75)
    working: str = told("How it was judged.", "/api/v1/units/8/claims/out-20v/working")


class Interval(Told):
    median: float = told("W", 33.1)
    low: float = told("5 %, W.", 28.4)
    high: float = told("95 %, W.", 40.9)


class Capability(Told):
    """Continuous output power at both ends of the rated mains range."""

    low: Interval | None = unknown("At the low end.", None)
    high: Interval | None = unknown("At the high end.", None)


class LineEnd(Told):
    value: float | None = unknown("In the line's unit.", 33.0)
    low: float | None = unknown("5 %.", 28.0)
    high: float | None = unknown("95 %.", 39.0)


class Line(Told):
    """One line of evidence about power or voltage."""

    id: str = told("Of its rule.", "power/bulk_capacitor")
    kind: str = told("limit, practice, passed, failed or switch.", "limit")
    title: str = told("In words.", "Energy of the bulk capacitor")
    unit: str = told("Of its values.", "W")
    ends: dict[str, LineEnd] = told("By mains end, low and high.", {
        "low": {"value": 33.0, "low": 28.0, "high": 39.0}})
    used: bool = told("Whether it counts.", True)
    why_not: str = told("Why it does not.", "")
    evidence: list[str] = told("Names of the rows that it rests on.", ["component/bulk-1"])
    working: str = told("How it came to its value.",
                        "/api/v1/units/8/working/power/bulk_capacitor/low")


class Question(Told):
    text: str = told("What would tell more.", "Resistance of the fusible resistor, if there is one")
    reads: list[str] = told("Quantities that it asks for.", ["fusible_resistance"])


class Unit(UnitRow):
    """The record of one unit: the version that stands, and what it comes to."""

    version: int = told("Number of the version that stands.", 2)
    rulebook: str = told("Version of the rulebook that it was assessed under.", "3+8b1b7325")
    digests: Digests = told("To check what you hold against.", None)
    licence: Licence = told("Under which terms it may be used.", None)
    claims: list[ClaimVerdict] = told("Every printed claim that is judged.", None)
    capability_ends: Capability = told("At both ends of the rated mains range.", None)
    lines: list[Line] = told("Lines of evidence.", None)
    findings: list[Finding] = told("Hazards found, the gravest first.", None)
    replies: list[Reply] = told("To the whole record, or to single rows.", None)
    open_questions: list[Question] = told("What would tell more.", None)
    links: dict[str, str] = told("What else there is of it.", {
        "document": "/api/v1/units/8/document", "photos": "/api/v1/units/8/photos"})


class VersionRow(Told):
    number: int = told("1, 2, 3 …", 2)
    href: str = told("The version itself.", "/api/v1/units/8/versions/2")
    published_at: str = told("When.", "2026-11-26T06:25:14+00:00")
    note: str = told("What the moderator wrote.", "")
    reason: str = told("Of the correction that led to it.", "The bulk capacitor is 6.8 µF.")
    author: str = told("Of that correction.", "bob")
    rulebook: str = told("That it was published under.", "3+8b1b7325")
    verdict: str = told("As published.", "doubtful")
    evidence_digest: str = told("SHA-256.", "77de62df" * 8)


class Versions(Told):
    versions: list[VersionRow] = told("The newest first.", None)


class Assessment(Told):
    """What the engine made of a version's evidence; same rulebook and evidence, same bytes."""

    id: int = told("Its number.", 70)
    href: str = told("All of its numbers.", "/api/v1/units/8/assessments/70")
    version: int = told("Of the unit's evidence.", 2)
    as_of: Literal["publication", "today"] = told(
        "As published, or under the rulebook in force.", "today")
    rulebook: str = told("Its version.", "3+8b1b7325")
    evidence_digest: str = told("SHA-256 of the evidence.", "77de62df" * 8)
    confirmed_only: bool = told("Of confirmed evidence alone: what is public.", True)
    verdict: str = told("On the largest claim.", "doubtful")
    plausibility: float | None = unknown("0 to 1.", 0.21)
    capability: float | None = unknown("W, median.", 33.1)
    risk: int = told("0 none found … 4 serious.", 2)
    made_at: str = told("When.", "2026-11-26T06:25:14+00:00")


class Assessments(Told):
    assessments: list[Assessment] = told("Of every version, the newest first.", None)


class WholeAssessment(Assessment):
    report: dict[str, Any] = told("Everything that was computed.", {"rulebook": "3+8b1b7325"})


class Version(VersionRow):
    """One version as it was published, for good."""

    document: dict[str, Any] = told("The evidence, in the exchange form.", {
        "form": "underplate-unit/1", "unit": {"title": "Veltrice VQ-45"}})
    assessment: WholeAssessment = told("As published.", None)


class Changed(Told):
    """Rows that one version has otherwise than another."""

    list: str = told("Of the document.", "components")
    key: str = told("Of the row; empty of the unit itself.", "bulk-1")
    was: dict[str, Any] | None = unknown("The row then; null where there was none.",
                                         {"key": "bulk-1", "value": 1e-5})
    now: dict[str, Any] | None = unknown("The row now; null where there is none.",
                                         {"key": "bulk-1", "value": 6.8e-6})


class Difference(Told):
    was: int = told("Number of the one version.", 1)
    now: int = told("Number of the other.", 2)
    changes: list[Changed] = told("Row by row.", None)
    verdicts: dict[str, Any] = told("What it did to the numbers, as published then.", {
        "was": {"verdict": "possible"}, "now": {"verdict": "doubtful"}})


class Working(Told):
    """How a number was worked out, back to its evidence."""

    working: dict[str, Any] = told(
        "Formula (MathML), the numbers put in with their evidence, the budget, the source.",
        {"id": "power/bulk_capacitor", "result": {"value": 33.0, "unit": "W"}})
    rulebook: str = told("Version that it was worked out under.", "3+8b1b7325")


class Replies(Told):
    replies: list[Reply] = told("Of makers and sellers, to anything of the record.", None)
