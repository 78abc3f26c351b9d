"""The mains conditions of a report: both ends of the rated range, or its only one."""
from .numbers import printed, volts, with_unit


def mains_ends(report: dict) -> tuple[str, ...]:
    """("low", "high"), or ("low",) when the plate rates a single condition."""
    low, high = report["mains"]["low"], report["mains"]["high"]
    same = (low["voltage"], low["frequency"]) == (high["voltage"], high["frequency"])
    return ("low",) if same else ("low", "high")


def mains_short(report: dict, end: str) -> str:
    """`100 V 50 Hz`."""
    mains = report["mains"][end]
    return f"{volts(mains['voltage'])} {with_unit(printed(mains['frequency']), 'Hz')}"


def mains_text(report: dict, end: str) -> str:
    """`100 V 50 Hz`, and whether that was assumed."""
    assumed = report["mains"][end]["assumed"]
    remark = " (assumed, the plate’s range is not recorded)" if assumed else ""
    return mains_short(report, end) + remark
