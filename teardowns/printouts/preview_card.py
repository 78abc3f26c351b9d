"""The picture that other sites show beside a link to a record: its answer, drawn by the server."""
from __future__ import annotations

import json
from collections.abc import Mapping
from hashlib import sha256
from io import BytesIO
from typing import Any

from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from PIL import Image, ImageDraw

from teardowns.figures.strip import AXIS
from teardowns.models import Publication
from teardowns.presenting.numbers import claimed_watts
from teardowns.presenting.share_words import (
    capability_in_short,
    safety_in_short,
    verdict_in_short,
)
from teardowns.services.keep_printouts import CARDS
from teardowns.services.printout_digest import sources_digest
from teardowns.services.public_versions import shown_assessments
from teardowns.typesetting.fonts import fonts_at_hand
from teardowns.writing.render import visible

from .letters import width_of, wrapped, write

WIDTH, HEIGHT = 1200, 630                # px, what most sites ask for
EDGE, ROOM = 72, 1056                    # px, margin and what lies between both
PAPER, INK, QUIET, RULE, ACCENT = "#f6f7f4", "#17222d", "#4c5964", "#ccd3d2", "#00665a"
SCALE = 440                              # px, level of the strip
STRIP = 96                               # px, its height
ONE_UNIT = "One unit that somebody opened, not a product line"
AGAIN = 2                                # drawn so many times larger, so that edges are smooth


def preview_card(publication: Publication) -> bytes:
    """A PNG; drawn once for all who ask for the same."""
    report = shown_assessments(publication)[0].payload
    name = f"{CARDS}/{_digest(publication)}.png"
    store = storages["printouts"]
    try:
        with store.open(name) as file:
            return file.read()
    except FileNotFoundError:
        made = drawn_card(publication, report)
        store.save(name, ContentFile(made))
        return made


def _digest(publication):
    shown = shown_assessments(publication)[0]
    told = [str(publication.unit.uid), publication.number, shown.rulebook, shown.evidence_digest,
            sources_digest(), fonts_at_hand(), settings.SITE_URL]
    return sha256(json.dumps(told).encode()).hexdigest()


def drawn_card(publication: Publication, report: Mapping[str, Any]) -> bytes:
    image = Image.new("RGB", (WIDTH, HEIGHT), PAPER)
    canvas = ImageDraw.Draw(image)
    y = _head(canvas, publication)
    y = _lines(canvas, visible(publication.title), "serif", 44, y + 62, 2, INK)
    y = _lines(canvas, f"{verdict_in_short(report)}.", "sans", 34, y + 58, 2, INK)
    _lines(canvas, _second(report), "sans", 27, y + 48, 1, QUIET)
    image.paste(_strip(report), (EDGE, SCALE))
    _foot(canvas, report)
    written = BytesIO()
    image.save(written, "PNG", optimize=True)
    return written.getvalue()


def _head(canvas, publication):
    write(canvas, (EDGE, 78), "Underplate", "serif", 28, INK)
    right = f"unit {publication.unit_id} · version {publication.number}"
    write(canvas, (EDGE + ROOM - width_of(right, "sans", 24), 78), right, "sans", 24, QUIET)
    for level in (96, 101):
        canvas.line((EDGE, level, EDGE + ROOM, level), INK, 2)
    return 101


def _lines(canvas, text, face, size, y, most, fill):
    """Lines of a text from this base line on; that of the last."""
    for place, line in enumerate(wrapped(text, face, size, ROOM, most)):
        y += round(size * 1.26) if place else 0
        write(canvas, (EDGE, y), line, face, size, fill)
    return y


def _second(report):
    found = capability_in_short(report)
    return f"Capability of the unit examined: {found}" if found else (
        "What the unit examined can deliver cannot be told")


def _strip(report):
    """Claim and capability on the axis that all lists share; W, logarithmic."""
    picture = Image.new("RGB", (ROOM * AGAIN, STRIP * AGAIN), PAPER)
    canvas = ImageDraw.Draw(picture)
    for tick in AXIS.ticks:
        _upright(canvas, tick, RULE, 2, 62)
        label, x = f"{tick:g} W", _across(tick) / AGAIN
        write(canvas, ((x - width_of(label, "sans", 20) / 2) * AGAIN, 88 * AGAIN), label, "sans",
              20 * AGAIN, QUIET)
    _capability(canvas, report["capability"]["low"])
    if report["headline"] is not None:
        _claim(canvas, report["claims"][report["headline"]]["power"])
    return picture.resize((ROOM, STRIP), Image.Resampling.LANCZOS)


def _across(watts):
    return AXIS(watts) / 100 * (ROOM - 1) * AGAIN


def _upright(canvas, watts, colour, width, height):
    x = _across(watts)
    canvas.line((x, 0, x, height * AGAIN), colour, width * AGAIN)


def _capability(canvas, found):
    y = 40 * AGAIN
    if not found:
        for x in range(0, ROOM * AGAIN, 16 * AGAIN):
            canvas.ellipse((x, y - 3, x + 6, y + 3), QUIET)
        return
    canvas.line((_across(found["low"]), y, _across(found["high"]), y), INK, 10 * AGAIN)
    x, radius = _across(found["median"]), 11 * AGAIN
    canvas.ellipse((x - radius, y - radius, x + radius, y + radius), PAPER, INK, 4 * AGAIN)


def _claim(canvas, watts):
    """The claim as a line; its words on the side that has room."""
    _upright(canvas, watts, ACCENT, 4, 66)
    label = f"claimed {claimed_watts(watts)}".replace("\u202f", " ")
    x, width = _across(watts), width_of(label, "bold", 20) * AGAIN
    left = x + 10 * AGAIN if x + width + 20 * AGAIN < ROOM * AGAIN else x - width - 10 * AGAIN
    write(canvas, (left, 18 * AGAIN), label, "bold", 20 * AGAIN, ACCENT)


def _foot(canvas, report):
    canvas.line((EDGE, 556, EDGE + ROOM, 556), RULE, 2)
    write(canvas, (EDGE, 596), safety_in_short(report), "bold", 24, INK)
    write(canvas, (EDGE + ROOM - width_of(ONE_UNIT, "sans", 18), 596), ONE_UNIT, "sans", 18, QUIET)
