"""Photos of several units at one scale in millimetres, of one stage of the examination."""
from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from core.words.said import said
from teardowns.figures.scaled_photo import (
    ScaledPhoto,
    Window,
    ruler,
    ruler_length,
    scaled_photo,
    window_of,
)
from teardowns.imaging.scales import ScaleError, stored_scale
from teardowns.models.photos import Stage

from .compare_columns import Column
from .photo_sheet import DRAWING, address, title

# Which stage is shown where several are equally common: boards tell most.
FIRST = (Stage.COMPONENT_SIDE, Stage.SOLDER_SIDE, Stage.OPENED, Stage.TRANSFORMER)
FIRST_WIDTH = 640           # px of the picture that is loaded at first


@dataclass(frozen=True, slots=True)
class Candidate:
    """A photo that can be shown to scale."""

    photo: Any
    drawn: ScaledPhoto
    plane: str                  # where its scale holds, in the contributor's words
    is_slanted: bool            # its scale is a mean over a rectangle seen aslant


@dataclass(frozen=True, slots=True)
class Shown:
    column: Column
    picture: SafeString | str       # "" where there is none to scale
    title: str
    address: str                    # of the photo's page
    remarks: list[str]


@dataclass(frozen=True, slots=True)
class ComparedPhotos:
    stage: str
    stages: list[tuple[str, str, int]]      # code, name, how many units have one to scale
    shown: list[Shown]
    ruler: SafeString
    ruler_text: str                         # "10 mm"
    window: Window


def compared_photos(columns: Sequence[Column], asked: str = "") -> ComparedPhotos | None:
    """None where no unit has a photo with a scale. asked : a stage, or "" for the most common"""
    found = [_candidates(column) for column in columns]
    counts = Counter(stage for by_stage in found for stage in by_stage)
    if not counts:
        return None
    stage = asked if asked in counts else max(counts, key=lambda code: (counts[code], -_rank(code)))
    chosen = [by_stage.get(stage) for by_stage in found]
    window = window_of([one.drawn for one in chosen if one])
    return ComparedPhotos(
        stage=stage, stages=[(code, Stage(code).label, counts[code])
                             for code in Stage.values if code in counts],
        shown=[_shown(column, one, by_stage, stage, window) for column, one, by_stage
               in zip(columns, chosen, found, strict=True)],
        ruler=mark_safe(ruler(window)), ruler_text=f"{ruler_length(window)}\u202fmm",
        window=window)


def _rank(stage) -> int:
    return FIRST.index(stage) if stage in FIRST else len(FIRST) + Stage.values.index(stage)


def _candidates(column) -> dict[str, Candidate]:
    """By stage, the first photo of it that has pictures in sight and a scale."""
    rows, pictures = column.compared.rows, column.compared.pictures
    scales = {row.photo_id: row for row in sorted(rows["photoscale"], key=lambda row: row.pk)}
    found: dict[str, Candidate] = {}
    for photo in sorted(rows["photo"], key=lambda photo: photo.pk):
        if photo.pk in scales and pictures.get(photo.pk) and photo.stage not in found:
            one = _candidate(photo, scales[photo.pk], pictures[photo.pk])
            if one is not None:
                found[photo.stage] = one
    return found


def _candidate(photo, row, files) -> Candidate | None:
    """None where the scale or the size cannot be used: its page says why."""
    try:
        scale = stored_scale(row.points, row.lengths, row.length_uncertainty)
    except (ScaleError, ValueError):
        return None
    if not (photo.width and photo.height):
        return None
    a_pixel = 1e3 * scale.metres_a_pixel
    first = next((each for each in files if each.width >= FIRST_WIDTH), files[-1])
    drawn = ScaledPhoto(
        src=address(photo, first.width), large=address(photo, files[-1].width),
        alt=photo.alt or photo.caption or said(f"{title(photo)} of the unit"),
        width=photo.width * a_pixel, height=photo.height * a_pixel)
    return Candidate(photo, drawn, row.plane, scale.removes_perspective)


def _shown(column, one, by_stage, stage, window) -> Shown:
    if one is None:
        others = ", ".join(Stage(code).label.lower() for code in Stage.values if code in by_stage)
        why = (f"No photo “{Stage(stage).label.lower()}” with a scale."
               + (f" With a scale: {others}." if others else ""))
        return Shown(column, "", "", f"{column.links.unit}#photos", [why])
    remarks = [
        f"Scale: in the plane of {one.plane}." if one.plane else "",
        "Seen aslant: its scale is a mean." if one.is_slanted else "",
        DRAWING if one.photo.drawn else ""]
    return Shown(column, mark_safe(scaled_photo(one.drawn, window)), title(one.photo),
                 one.photo.get_absolute_url(), [text for text in remarks if text])
