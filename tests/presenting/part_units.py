"""Invented units with a part, as the service tells of them."""
from dataclasses import dataclass


@dataclass(frozen=True)
class End:
    voltage: float
    low: float
    median: float
    high: float
    is_assumed: bool = False


@dataclass(frozen=True)
class Unit:
    pk: int = 1
    title: str = "Veltrice VQ-45"
    claimed: float | None = 45.0
    ends: tuple = (End(100.0, 13.0, 15.0, 17.0), End(240.0, 15.0, 18.0, 21.0))
    measured: float | None = None
    measured_mains: float | None = None
