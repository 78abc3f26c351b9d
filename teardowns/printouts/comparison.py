"""Two to six versions side by side on paper: what differs, then each in short."""
from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.conf import settings
from django.template.loader import render_to_string
from django.urls import reverse

from teardowns.models import Publication
from teardowns.presenting.compare_sheet import compare_sheet
from teardowns.services.compared_curves import compared_curves
from teardowns.services.compared_units import compared_units
from teardowns.typesetting.blocks import blocks

from .ink import site_ink
from .photos import Reading
from .unit_record import unit_record

SHORT = "teardowns/printed_short.html"


def comparison(versions: Sequence[Publication]) -> tuple[list[Any], dict[str, Reading], str]:
    """Blocks, pictures, and the address of the page that shows the same."""
    address = comparison_address(versions)
    each = [unit_record(one, template=SHORT, with_working=False) for one in versions]
    html = render_to_string("teardowns/printed_comparison.html", {
        **_sheet(versions), "address": address})
    found, pictures = blocks(html, site_ink()), {}
    for printed in each:
        found += [{"b": "page"}, *printed.blocks]
        pictures |= printed.pictures
    return found, pictures, address


def _sheet(versions):
    """What the page of the comparison shows."""
    found = compared_units([(one.unit_id, str(one.number)) for one in versions])
    return compare_sheet(found.units, compared_curves(found.units))


def comparison_address(versions: Sequence[Publication]) -> str:
    units = ",".join(f"{one.unit_id}v{one.number}" for one in versions)
    return f"{settings.SITE_URL}{reverse('compare')}?units={units}"
