"""How much of its room an account has used, in words."""
from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.conf import settings

GB = 1e9


def room_words(room: Any) -> str:
    """room : of services.account_room"""
    return (f"Photos and logs take {room.bytes_kept / GB:.1f} of {room.bytes_most / GB:.0f} GB; "
            f"{room.sheets_open} of {room.sheets_most} sheets are open.")


def sizes(offered: Iterable[int]) -> list[tuple[int, str]]:
    """What a moderator may choose from: times of the usual room, each in words."""
    return [(times, f"{times * settings.ACCOUNT_BYTES / GB:.0f} GB and "
                    f"{times * settings.ACCOUNT_SHEETS} open sheets") for times in offered]
