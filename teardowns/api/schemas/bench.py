"""What is written with a token: what is sent, and what is given back."""
from typing import Annotated, Any, Literal

from pydantic import Field

from teardowns.api.texts import Line
from teardowns.models import Kind

from .fields import Said, Told, following, told, unknown

Texts = dict[Annotated[str, Field(max_length=60)], Annotated[Line, Field(max_length=20_000)]]


class NewUnit(Said):
    """A bench sheet to begin with: its title and kind, or a whole document."""

    title: Annotated[Line, Field(max_length=200)] = told(
        "How lists name it: maker, model, power as printed.", "Veltrice VQ-45, 45 W", "")
    kind: Literal[tuple(Kind.values)] = told("What it is.", Kind.values[0], Kind.values[0])
    document: dict[str, Any] | None = told(
        "Instead of both: evidence in the exchange form, schema UnitDocument. Rows arrive "
        "unreviewed, whatever the document says of itself.", None, None)


class Sheet(Told):
    """A bench sheet: what is being worked on, which its author alone sees and writes."""

    unit: int = told("Its number.", 12)
    href: str = told("The sheet.", "/api/v1/bench/12")
    page: str = told("The page for people.", "/bench/12/outside/")
    title: str = told("What lists call it.", "Veltrice VQ-45, 45 W")
    status: str = told("draft, submitted, in_review, sent_back, published …", "draft")
    is_open: bool = told("Whether it can be written on now.", True)
    correction: int | None = unknown("Number of the correction that it is.", None)
    version: int = told("Of the unit's own fields.", 1)


class Sheets(Told):
    sheets: list[Sheet] = told("Your own, the newest first.", None)
    next: str = following()


class WholeSheet(Sheet):
    document: dict[str, Any] = told("All of it, in the exchange form.", {
        "form": "underplate-unit/1", "unit": {"title": "Veltrice VQ-45, 45 W"}})


class UnitChange(Said):
    """Fields of the unit itself, as they are typed; those left out stay as they are."""

    fields: Texts = told("By name: title, kind, maker, model, obtained_on, channel, price, "
                         "currency, listing_reach, plug, photographed_sides, notes.",
                         {"maker": "Veltrice", "obtained_on": "2026-11-02"})


class UnitFields(Told):
    unit: int = told("Its number.", 12)
    version: int = told("Raised by every change.", 1)
    fields: dict[str, str] = told("As the page shows them in its boxes.", {"maker": "Veltrice"})


class Row(Told):
    """One row of evidence in the exchange form, with what the next change of it needs."""

    list: str = told("Of the document.", "measurements")
    ref: str = told("Its name.", "measurement/mass")
    version: int = told("Raised by every change.", 1)
    row: dict[str, Any] = told("As the document holds it.", {
        "key": "mass", "quantity": "mass_total", "value": 0.061, "state": "recorded"})


class Rows(Told):
    rows: list[Row] = told("Of one list, in the order in which they came.", None)


class Section(Told):
    """A section of the bench sheet as its page shows it: texts, units and all."""

    section: str = told("Its slug.", "outside")
    title: str = told("As the page names it.", "Outside")
    unit: dict[str, str] = told("Fields of the unit that it asks for.", {"maker": "Veltrice"})
    rows: dict[str, list[dict[str, str]]] = told("Rows by table, as they are typed.", {
        "mass-total": [{"key": "mass-total", "version": "1", "value": "61 g ± 1 g"}]})


class SectionTyped(Said):
    """A section as it is typed. Rows that are left out stay; `remove` takes one away."""

    unit: Texts = told("Fields of the unit.", {"maker": "Veltrice"}, {})
    rows: dict[Annotated[str, Field(max_length=60)],
               Annotated[list[Texts], Field(max_length=120)]] = told(
        "Rows by table. `key` and `version` name the stored row that is meant.", {
            "mass-total": [{"key": "mass-total", "version": "0", "value": "61 g ± 1 g"}]}, {})
    discharged: bool = told("That you made sure the unit is discharged.", True, False)


class Saved(Told):
    changed: int = told("Rows that changed.", 1)
    assessed: bool = told("Whether the verdict was worked out anew.", True)
    section: str = told("Its slug.", "outside")


class HandIn(Said):
    """What is said when a sheet is handed in."""

    message: Annotated[Line, Field(max_length=4000)] = told(
        "To those who review it.", "Look at the slot first.", "")
    own_rights: bool = told("The statement of the terms in force: see /licence.", True)
    edition: int = told("Of the terms that you read.", 1, ge=1, le=10_000)
    third_party: Annotated[str, Field(max_length=20)] = told(
        "Whether text or photos in it are made by somebody else: none, permitted, or unsure.",
        "none")
    third_party_note: Annotated[Line, Field(max_length=4000)] = told(
        "Whose it is, and who permitted it.", "", "")
    why_no_photo: Annotated[Line, Field(max_length=4000)] = told(
        "Where there is none.", "", "")
    photos_looked_at: dict[Annotated[str, Field(max_length=64)],
                           Annotated[int, Field(ge=1, le=1_000_000_000)]] = told(
        "By key, the version of each photo that you looked at in full size and found nothing "
        "private in.", {"opened-1": 1}, {})
    answers: dict[Annotated[str, Field(pattern=r"^[0-9]{1,18}$")],
                  Annotated[Line, Field(max_length=4000)]] = told(
        "By number of the remark that a reviewer made.", {"4": "Measured once more."}, {})


class Reason(Said):
    reason: Annotated[Line, Field(max_length=2000)] = told(
        "Why.", "The bulk capacitor is 6.8 µF: the photo shows it.", "")


class Opened(Told):
    """A correction that is open: its author writes on the bench, everybody sees the old version."""

    correction: int = told("Its number.", 3)
    unit: int = told("Of which.", 8)
    base: int = told("Number of the version that it starts from.", 2)
    bench: str = told("Where it is written.", "/api/v1/bench/8")


class NewComment(Said):
    text: Annotated[Line, Field(min_length=1, max_length=4000)] = told(
        "What you say; a small part of Markdown is understood.", "Which side is this?")
    about: Annotated[Line, Field(max_length=100)] = told(
        "Name of the row of evidence; of a unit only.", "", "")


class NewProposal(Said):
    """A change of the part library, which a moderator decides about."""

    change: Literal["part", "description", "limit", "limit_changed", "limit_removed",
                    "superseded"] = told("Of which kind.", "limit")
    part: int | None = told("Number of the part; of all kinds but a new part.", 4, None,
                            ge=1, le=2**63 - 1)
    limit: int | None = told("Number of the limit that is changed or taken out.", None, None,
                             ge=1, le=2**63 - 1)
    seen: int | None = told("Version of the part that you saw.", 2, None, ge=1, le=10**9)
    fields: Texts = told("As they are typed: marking, function, package, note, quantity, value, "
                         "document, revision, place, page, successor.",
                         {"quantity": "controller_power_wide", "value": "18 W",
                          "document": "KX7731 data sheet", "place": "table 2"}, {})
    why: Annotated[Line, Field(max_length=5000)] = told(
        "Whoever decides goes by it.", "The data sheet gives it for an open frame.", "")


class NewMember(Said):
    unit: int = told("Number of a public unit.", 8, ge=1, le=2**63 - 1)
    why: Annotated[Line, Field(max_length=5000)] = told(
        "What speaks for it, and what against; rows are named as in 8/component/bulk-1.",
        "The same print and the same slot.", "")


class Proposed(Told):
    proposal: int = told("Its number.", 6)
    page: str = told("Where it stands and can be taken back.", "/parts/proposals/6/")
    state: str = told("It counts for nothing before a moderator accepts it.", "proposed")
