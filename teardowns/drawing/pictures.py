"""All pictures of a unit, in the order in which a bench takes them."""
from __future__ import annotations

from teardowns.drawing.as_received import outsides
from teardowns.drawing.component_side import component_sides
from teardowns.drawing.opened import opened_cases
from teardowns.drawing.picture import STAGES, Picture
from teardowns.drawing.plate import plates
from teardowns.drawing.ports import port_faces
from teardowns.drawing.solder_side import solder_sides
from teardowns.drawing.thermal import thermal_maps
from teardowns.drawing.transformer import transformers
from teardowns.drawing.waveforms import load_tests, traces
from teardowns.drawing.words import Document

_KINDS = (outsides, plates, port_faces, opened_cases, component_sides, solder_sides,
          transformers, thermal_maps, load_tests, traces)


def pictures_of(document: Document) -> list[Picture]:
    """The pictures that a full document (of `read_document`) has evidence for."""
    drawn = [picture for draw in _KINDS for picture in draw(document)]
    return sorted(drawn, key=lambda picture: STAGES.index(picture.stage))
