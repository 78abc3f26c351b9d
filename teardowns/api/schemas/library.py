"""Parts, families, what is said about them, the method, the log: what is given out."""
from .fields import Told, following, told, unknown
from .units import UnitRow


class PartRow(Told):
    """A component type of the library."""

    part: int = told("Its number.", 4)
    href: str = told("The whole of it.", "/api/v1/parts/4")
    marking: str = told("As on the part.", "KX7731")
    function: str = told("What it is.", "primary controller")
    package: str = told("Its case.", "SOP-8")
    superseded_by: str = told("Marking of what takes its place; empty of most.", "")


class PartPage(Told):
    parts: list[PartRow] = told("By marking.", None)
    next: str = following()


class Limit(Told):
    id: int = told("Its number, for proposals.", 9)
    quantity: str = told("Code.", "controller_power_wide")
    value: float = told("SI.", 18.0)
    unit: str = told("Of the value.", "W")
    citation: str = told("Document, revision, table, page.", "KX7731 data sheet, rev. B, table 2")


class UnitOfPart(Told):
    unit: int = told("Its number.", 8)
    title: str = told("As published.", "Veltrice VQ-45")
    href: str = told("The record.", "/api/v1/units/8")
    rows: list[str] = told("Keys of the components that are the part.", ["controller"])


class Part(PartRow):
    note: str = told("What else is known.", "")
    version: int = told("Of the entry.", 2)
    limits: list[Limit] = told("With their sources.", None)
    units: list[UnitOfPart] = told("Public units that contain it, the newest 100.", None)
    units_in_all: int = told("How many there are.", 1)


class FamilyRow(Told):
    """Units that share one board."""

    family: str = told("Its slug, which stays.", "mb-0714")
    href: str = told("The whole of it.", "/api/v1/families/mb-0714")
    name: str = told("Its name now.", "MB-0714")
    description: str = told("What the board is.", "Single-sided, slot below the transformer.")


class Families(Told):
    families: list[FamilyRow] = told("By name.", None)
    next: str = following()


class Member(Told):
    unit: int = told("Its number.", 8)
    href: str = told("The record.", "/api/v1/units/8")
    title: str = told("As published.", "Veltrice VQ-45")
    why: str = told("What speaks for it.", "8/component/board and 12/component/board look alike.")


class Family(FamilyRow):
    evidence_for: str = told("That it is one board.", "The same print and the same slot.")
    evidence_against: str = told("Differences that were seen.", "")
    units: list[Member] = told("Public members.", None)


class Comment(Told):
    """What somebody said in public."""

    comment: int = told("Its number.", 31)
    about: str = told("Name of the row of evidence; empty of the whole.", "component/bulk-1")
    author: str = told("Public name.", "bob")
    text: str = told("As typed: plain text with a small part of Markdown.", "Which side is this?")
    written_at: str = told("When.", "2026-11-26T09:12:00+00:00")
    edited_at: str | None = unknown("When its author changed it.", None)
    state: str = told("shown, or held until a moderator has looked at it.", "shown")


class Comments(Told):
    comments: list[Comment] = told("The oldest first.", None)
    next: str = following()


class Quantity(Told):
    """One entry of the nomenclature: the code is the name everywhere."""

    code: str = told("Of the quantity; never renamed.", "bulk_capacitance")
    unit: str = told("SI; 1 for ratios, counts and flags.", "F")
    label: str = told("As forms name it.", "Bulk capacitance, measured")
    meaning: str = told("What it is.", "Of all bulk capacitors together.")
    low: float = told("What can exist: from.", 0.0)
    high: float | None = unknown("To; null without an upper end.", 0.001)
    shown_in: str = told("Unit that people type, where it is another.", "µF")
    is_flag: bool = told("Whether 1 is present and 0 looked for and not found.", False)


class Quantities(Told):
    quantities: list[Quantity] = told("By code.", None)


class RuleRow(Told):
    """One rule of the rulebook."""

    id: str = told("Never reused.", "power/bulk_capacitor")
    href: str = told("The whole of it.", "/api/v1/method/rules/power/bulk_capacitor")
    kind: str = told("limit, practice, passed, failed, switch, check or safety.", "limit")
    on: str = told("What it is about.", "power")
    title: str = told("In words.", "Energy of the bulk capacitor")
    reads: list[str] = told("Quantities and conditions that it reads.", ["bulk_capacitance"])


class Worked(Told):
    inputs: dict[str, float] = told("SI, by quantity.", {"bulk_capacitance": 1e-5})
    result: float = told("As published.", 11.5)
    tolerance: float = told("Relative.", 0.02)
    source: str = told("Document and page.", "Worked by hand from the formula.")


class Rule(RuleRow):
    summary: str = told("In plain words.", "A bulk capacitor carries the unit over a half-cycle.")
    formula: str = told("MathML.", "<math><mi>P</mi></math>")
    source: str = told("Where it stands, to the page.", "Common practice, no source.")
    validity: str = told("When it holds.", "Without power-factor correction.")
    model_error: float = told("Relative, k = 1.", 0.1)
    margin: float = told("Scale of the designer's margin, in ln.", 0.3)
    optional: list[str] = told("Of what it reads, what may be unknown.", [])
    confidence: str = told("Of a requirement: A, B or C; empty elsewhere.", "")
    hazard: str = told("What a shortfall means; empty elsewhere.", "")
    worked: list[Worked] = told("Published values that it reproduces.", [])


class Method(Told):
    version: str = told("Of the rulebook in force: edition and digest.", "3+8b1b7325")
    edition: str = told("Raised when a published number moves.", "3")
    rules: list[RuleRow] = told("All of them, by id.", None)


class LogEntry(Told):
    """One entry of the log that everybody may read."""

    sequence: int = told("1, 2, 3 …", 412)
    at: str = told("When.", "2026-11-26T06:25:14+00:00")
    action: str = told("Its code.", "work_publish")
    words: str = told("In words.", "Version published")
    role: str = told("Of who did it.", "moderator")
    unit: int | None = unknown("Number of the unit.", 8)
    subject: str = told("What it is about.", "")
    reason: str = told("Why.", "")
    hash: str = told("SHA-256 of the chain up to here.", "9ac1" * 16)


class LogPage(Told):
    entries: list[LogEntry] = told("The newest first.", None)
    next: str = following()


class LicenceTerms(Told):
    edition: int = told("In force.", 1)
    since: str = told("Day.", "2026-11-26")
    text: str = told("All of it.", "Measurements\nEvery number …")
    sha256: str = told("Of the text.", "5d1f" * 16)
    measurements: str = told("SPDX name.", "CC0-1.0")
    works: str = told("SPDX name.", "CC-BY-4.0")


class Hit(UnitRow):
    """A unit that was found; `snippet` shows where the words stand."""

    snippet: str = told("Words around the place, as plain text.", "… KX7731 on the primary side …")


class Found(Told):
    query: str = told("As it was read.", "KX7731")
    total: int = told("Units found; is_cut says whether there are more.", 1)
    is_cut: bool = told("Whether only the best were kept.", False)
    units: list[Hit] = told("Best first.", None)
    parts: list[PartRow] = told("A few.", None)
    families: list[FamilyRow] = told("A few.", None)
    suggestions: list[str] = told("What may have been meant.", ["KX7731B"])
    next: str = following()


class Statement(Told):
    """A statement of reasons that was addressed to the owner of the token."""

    id: str = told("Its UUID.", "0d7a9b2f-7c1e-4f0e-8a63-5d2c5d1f1f10")
    decision: str = told("What was decided.", "send_back")
    subject: str = told("About what.", "unit/8")
    code: str = told("Reason of the list.", "other")
    rule: str = told("In the words of the day.", "Evidence has to be readable.")
    facts: str = told("What was seen.", "The plate is unreadable.")
    remedy: str = told("How to appeal, how to undo.", "Answer within 14 days.")
    automated: bool = told("Whether no person decided.", False)
    at: str = told("When.", "2026-11-26T06:25:14+00:00")
    digest: str = told("SHA-256, as the log keeps it.", "77de62df" * 8)


class Statements(Told):
    statements: list[Statement] = told("The newest first.", None)
    next: str = following()


class Index(Told):
    """Where to begin."""

    title: str = told("Name of the site.", "Underplate")
    version: str = told("Of this API.", "1.0.0")
    links: dict[str, str] = told("By name.", {"units": "/api/v1/units"})
