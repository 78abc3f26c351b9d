"""Inside the transformer: the stack as drawn, its layers in words, and what parts neighbours."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.figures.marks import grade_mark
from teardowns.figures.winding_section import (
    Sheets,
    Wound,
    fitting_scale,
    letter_of,
    winding_section,
)
from teardowns.models import Damage, LayerKind, Material, ReviewState, State, WireInsulation

from . import evidence_cells as cells
from .links import Links, anchor
from .safety_points import subject_keys

RULE = "safety/winding_layers"
TITLE = "Winding cross-section, half of the bobbin, the core below"
CAPTION = (
    "Filled discs: primary; grey discs: auxiliary; rings with a dot: output, double where the wire "
    "bears more than enamel. Lines: tape; broken: damaged; dotted: melted, or not read. Grey ends: "
    "margins."
)
SCALE = (
    "Windings are to scale, by their turns and wires; a winding too long for one layer is laid in "
    "several. The width was not recorded: it is that of the output winding in one layer. Thin "
    "tape is drawn thicker, so that it can be counted."
)
# What insulation usually adds to the diameter of a wire, mm, beside the share of enamel; common
# practice, no source, for the drawing alone.
ENAMEL = 1.08
BUILD: dict[str, float] = {
    WireInsulation.TRIPLE: 0.2, WireInsulation.FULLY: 0.1, WireInsulation.INSULATED: 0.2,
    WireInsulation.SINGLE: 0.1,
}
MORE_THAN_ENAMEL = (WireInsulation.TRIPLE, WireInsulation.FULLY, WireInsulation.INSULATED)
DISPUTED = ReviewState.DISPUTED
SPOILT = (Damage.DAMAGED, Damage.MELTED)


@dataclass(frozen=True, slots=True)
class Item:
    name: str               # "Primary"
    words: str              # "64 turns, 0.23 mm bare, enamel"
    remarks: str            # what a reader should look at, or ""
    evidence: str           # address of its row


@dataclass(frozen=True, slots=True)
class Neighbours:
    name: str               # "A to C, primary to secondary"
    layers: str             # "2 layers count"
    mark: SafeString
    reason: str
    least: bool
    working: str            # address


@dataclass(frozen=True, slots=True)
class WindingSection:
    figure: SafeString
    caption: str
    scale: str
    items: list[Item]
    neighbours: list[Neighbours]


def winding_section_of(report: dict | None, rows: dict[str, list], links: Links,
                       scale: float | None = None, key: str = "wd") -> WindingSection | None:
    """None where no layer of the transformer was recorded.

    scale, key : of `figures.winding_section`, where several sections stand on one page
    """
    stack = _stack(rows)
    if not stack:
        return None
    places = {row.ref: place for place, row in enumerate(stack)}
    items = [_item(row) for row in stack]
    near = _neighbours((report or {}).get("safety"), places, links)
    least = next((sides for one, sides in near if one.least), None)
    drawn = winding_section(TITLE, _description(items, near), [_drawn(row) for row in stack],
                            least, scale, key)
    return WindingSection(mark_safe(drawn), CAPTION, SCALE, items, [one for one, _ in near])


def own_scale(rows: dict[str, list]) -> float | None:
    """Units per mm at which the unit's section fills its drawing; None where there is none."""
    stack = _stack(rows)
    return fitting_scale([_drawn(row) for row in stack]) if stack else None


def _stack(rows):
    return [row for row in sorted(rows["stacklayer"], key=lambda row: (row.position, row.pk))
            if row.state != State.NOT_FOUND]


def _drawn(row) -> Wound | Sheets:
    marked = bool(_remarks(row))
    if row.kind == LayerKind.INSULATION:
        return Sheets(_count(row), _mm(row.thickness), row.damage, row.material == Material.BOBBIN,
                      marked)
    bare = _mm(row.bare_diameter)
    return Wound(
        row.winding, _wires(row), bare, bare and _outer(bare, row.wire_insulation),
        row.wire_insulation in MORE_THAN_ENAMEL, (_mm(row.margin_left), _mm(row.margin_right)),
        marked)


def _count(row) -> int | None:
    if row.state != State.RECORDED:
        return None
    one = row.material in (Material.BOBBIN, Material.SHEET, Material.SLEEVE)
    return 1 if row.tape_layers is None and one else row.tape_layers


def _wires(row) -> int | None:
    if row.state != State.RECORDED or not row.turns:
        return None
    return max(round(row.turns), 1) * (row.strands or 1)


def _outer(bare: float, insulation: str) -> float:
    return bare if insulation == WireInsulation.BARE else ENAMEL * bare + BUILD.get(insulation, 0.0)


def _mm(metres: float | None) -> float | None:
    return None if metres is None else 1e3 * metres


def _item(row) -> Item:
    if row.kind == LayerKind.WINDING:
        name = row.get_winding_display()
    else:
        name = row.get_material_display() if row.material else "insulation"
    words = [*cells.winding(row), *cells.layers(row)]
    if row.wire_insulation in MORE_THAN_ENAMEL:
        words.append("type documented" if row.documented else "type not documented")
    return Item(f"{name[:1].upper()}{name[1:]}", AsWritten(", ".join(map(said, words))),
                "; ".join(_remarks(row)), f"#{anchor(row.ref)}")


def _remarks(row) -> list[str]:
    """What makes a layer worth a look: damage, leads without a sleeve, gaps in the record."""
    found = [row.get_state_display().lower()] if row.state != State.RECORDED else []
    found += [row.get_damage_display()] if row.damage in SPOILT else []
    found += ["disputed, and left out of the grades"] if row.review_state == DISPUTED else []
    return found + (["leads without a sleeve"] if row.sleeved is False else [])


def _neighbours(safety: dict | None, places: dict[str, int], links: Links
                ) -> list[tuple[Neighbours, tuple[int | None, int | None]]]:
    """What the rule says of each neighbourhood, with the places of both sides in the stack."""
    results = (safety or {}).get("results", ())
    graded = [(one, key) for one, key in zip(results, subject_keys(results), strict=True)
              if one["rule"] == RULE]
    weakest = ((safety or {}).get("stack") or {}).get("weakest") or {}
    found = []
    for one, key in graded:
        sides = _sides(one, places)
        roles, ends = said(one["subject"]).partition(",")[0], _between(sides)
        near = Neighbours(
            name=AsWritten(f"{ends}: {roles}"), layers=_layers(one["numbers"]),
            mark=mark_safe(grade_mark(one["grade"])), reason=one["reason"],
            least=one["subject"] == weakest.get("subject"), working=links.safety(RULE, key))
        found.append((near, sides))
    return found


def _sides(one: dict, places: dict[str, int]) -> tuple[int | None, int | None]:
    """The winding on the inner and on the outer side; None is the core."""
    known = [places[ref] for ref in one["evidence"] if ref in places]
    inner, outer = one["subject"].partition(",")[0].split(" to ")
    return (None if inner == "core" else min(known, default=None),
            None if outer == "core" else max(known, default=None))


def _between(sides) -> str:
    """ "A to C", "Core to A" """
    name = said(" to ".join(map(letter_of, sides)))
    return f"{name[:1].upper()}{name[1:]}"


def _layers(numbers: dict) -> str:
    """ "2 layers count", "1 to 3 layers count", "at least 1 layer counts" """
    low, high = numbers["layers_high"], numbers["layers_low"]
    if low is None or (high is None and not low):
        return "not known how many layers count"
    if high is None:
        return f"at least {low:g} layer{'s count' if low != 1 else ' counts'}"
    if low == high:
        return f"{low:g} layer{'s count' if low != 1 else ' counts'}"
    return f"{low:g} to {high:g} layers count"


def _description(items: Sequence[Item], near) -> str:
    stack = "; ".join(": ".join(filter(None, (f"{letter_of(place)} {said(item.name)}", item.words)))
                      for place, item in enumerate(items))
    least = next((one for one, _ in near if one.least), None)
    ending = f" {said('Least insulated:')} {least.name}, {said(least.layers)}." if least else ""
    return f"{said('From the core outward.')} {stack}.{ending}"
