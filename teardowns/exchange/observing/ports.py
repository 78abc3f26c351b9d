"""What a port advertises: the words of its capability list, and the pull-up on CC."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from teardowns.engine.physics.power_objects import EPR_CAPABLE, CapabilityList, Fixed, read_list
from teardowns.exchange.observing.observation import Observation, Row, is_recorded

HIGHEST_STANDARD = 20.0     # V; fixed objects above it are of the extended power range


def advertised_by(port: Row) -> tuple[int, ...]:
    """The words of the port's capability list as numbers."""
    return tuple(int(word, 16) for word in port["advertised"])


def of_ports(ports: Sequence[Row]) -> Iterator[Observation]:
    """ports : those that count"""
    for port in filter(is_recorded, ports):
        ref = (f"port/{port['key']}",)
        for code, value in _advertised(read_list(advertised_by(port))):
            yield Observation(code, value, 0.0, ref, port=port["key"])
        if port.get("cc_current"):
            yield Observation("type_c_current", port["cc_current"], 0.0, ref, port=port["key"])


def _advertised(offer: CapabilityList):
    """A list with an unread word, or without its extended half, may offer more than it shows."""
    fixed = offer.of(Fixed)
    if not fixed or offer.problems or _ends_early(offer, fixed):
        return
    yield "advertised_voltage", max(item.voltage for item in fixed)
    yield "advertised_power", max(item.voltage * item.current for item in fixed)


def _ends_early(offer, fixed):
    first = offer.objects[0]
    is_capable = isinstance(first, Fixed) and EPR_CAPABLE in first.flags
    return is_capable and max(item.voltage for item in fixed) <= HIGHEST_STANDARD
