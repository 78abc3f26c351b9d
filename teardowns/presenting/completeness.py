"""What a reviewer will ask for, and what the bench sheet says to each: a list, never a gate."""
from __future__ import annotations

from collections.abc import Callable
from functools import partial

from teardowns.models import Barrier, Channel, Path, Role, Source, Stage, State

from .asked import (
    ANSWERS,
    MISSING,
    NONE_OF_IT,
    PARTLY,
    THERE,
    Asked,
    AskedGroup,
    Completeness,
    said,
    told,
)
from .asked_care import ASKS_OF_CARE
from .asked_rows import Sheet

LOADS = ("sustained_power", "failed_power", "peak_power")
CASE = ("case_height", "case_width", "case_depth")
INSIDE = (Stage.OPENED, Stage.COMPONENT_SIDE, Stage.SOLDER_SIDE)
SIDES = (Stage.COMPONENT_SIDE, Stage.SOLDER_SIDE)


def completeness(sheet: Sheet) -> Completeness:
    return Completeness(tuple(AskedGroup(title, tuple(ask(sheet) for ask in asks))
                              for title, asks in ASKS))


def _origin(sheet):
    is_known = sheet.unit.channel != Channel.UNKNOWN
    return Asked("How it was obtained", THERE if is_known else MISSING,
                 sheet.unit.get_channel_display() if is_known else "From a shop, with a device…",
                 sheet.section("origin"))


def _photos(sheet):
    count = len(sheet.photos)
    return Asked("Photos", THERE if count else MISSING, f"{count} kept" if count else
                 "One at least, or below the reason why there is none.", sheet.photo_page)


def _has_no_plate(sheet):
    return said(sheet.states("printedtext", Source.PLATE)) == State.NOT_FOUND


def _plate_photo(sheet):
    if sheet.has_photo(Stage.PLATE):
        return Asked("Photo of the rating plate", THERE, "", sheet.photo_page)
    if _has_no_plate(sheet):
        return Asked("Photo of the rating plate", NONE_OF_IT, "No plate was found.",
                     sheet.photo_page)
    return Asked("Photo of the rating plate", MISSING, "", sheet.photo_page)


def _plate_text(sheet):
    state = said(sheet.states("printedtext", Source.PLATE))
    return Asked("Text of the rating plate", state, "" if state in ANSWERS else
                 "Letter by letter, or “Looked, not found” where there is no plate.",
                 sheet.section("printed", "texts"))


def _claims(sheet):
    states, address = sheet.states("claim"), sheet.section("printed", "claims")
    if not states and _has_no_plate(sheet):
        return Asked("Claims", State.NOT_FOUND, "No plate was found.", address)
    return Asked("Claims", said(states), _recorded(states), address)


def _recorded(states):
    count = states.count(State.RECORDED)
    return f"{count} recorded" if count else ""


def _mass(sheet):
    return Asked("Mass", said(sheet.states("measurement", "mass_total")), "",
                 sheet.section("outside", "mass-total"))


def _case(sheet):
    states = [said(sheet.states("measurement", code)) for code in CASE]
    answered = sum(state in ANSWERS for state in states)
    state = states[0] if len(set(states)) == 1 else told(answered, len(CASE))
    return Asked("Outside dimensions", state, f"{answered} of {len(CASE)}"
                 if state == PARTLY else "", sheet.section("outside", "case-height"))


def _ports(sheet):
    states = sheet.states("port")
    return Asked("Ports", said(states), _recorded(states), sheet.section("ports", "ports"))


def _opened(sheet):
    found = State.RECORDED in sheet.states("component")
    state = THERE if found or sheet.has_photo(*INSIDE) else MISSING
    return Asked("Opened", state, "" if state == THERE else
                 "A photo or a part from inside. One that stays closed may be handed in as well.",
                 sheet.photo_page)


def _both_sides(sheet):
    shown = sum(sheet.has_photo(side) for side in SIDES)
    return Asked("Photos of both sides of the board", told(shown, len(SIDES)),
                 "one side of two" if shown == 1 else "", sheet.photo_page)


def _part(title, slug, table, roles, sheet):
    return Asked(title, said(sheet.states("component", *roles)), "", sheet.section(slug, table))


def _distance(title, path, sheet):
    states = [row.state for row in sheet.of("insulationobservation", Barrier.PRI_SEC)
              if row.also == path]
    return Asked(title, said(states), _recorded(states), sheet.section("barrier", "distances"))


def _load_test(sheet):
    state = said(sheet.states("measurement", *LOADS))
    return Asked("Load test", state, "" if state in ANSWERS else "Only by who is equipped for it.",
                 sheet.section("load", "loads"))


def _mains(sheet):
    loads = [row for row in sheet.of("measurement", *LOADS) if row.state == State.RECORDED]
    stated = sum(row.mains is not None for row in loads)
    words = f"stated of {stated} of {len(loads)} loads" if loads else "No load was recorded."
    return Asked("Mains voltage during the load test", told(stated, len(loads)), words,
                 sheet.section("load", "loads"))


KEY_PARTS = (
    ("Bulk capacitor", "mains-side", "bulk-capacitor", (Role.BULK_CAPACITOR,)),
    ("Primary controller", "mains-side", "primary-controller", (Role.PRIMARY_CONTROLLER,)),
    ("Transformer or its core", "transformer", "core", (Role.CORE, Role.TRANSFORMER)),
    ("Optocoupler", "output-side", "optocoupler", (Role.OPTOCOUPLER,)),
    ("Capacitor across the barrier", "barrier", "barrier-capacitor", (Role.BARRIER_CAPACITOR,)),
)
ASKS: tuple[tuple[str, tuple[Callable[[Sheet], Asked], ...]], ...] = (
    ("What it is", (_origin, _photos, _plate_photo, _plate_text, _claims)),
    ("Outside", (_mass, _case, _ports)),
    ("Inside", (_opened, _both_sides, *(partial(_part, *part) for part in KEY_PARTS))),
    ("Across the barrier", (
        partial(_distance, "Clearance, mains side to output", Path.CLEARANCE),
        partial(_distance, "Creepage, mains side to output", Path.CREEPAGE))),
    ("Under load", (_load_test, _mains)),
    ("How well it is told", ASKS_OF_CARE),
)
