"""The mains plug as people name it → the kind whose sizes are standardised."""
from __future__ import annotations

import re

# Code → what people write. Letters: IEC/TR 60083 world plugs list, as travel pages use them.
NAMES = {
    "europlug": r"euro ?plug|en ?50075|cee ?7/16|type c|c",
    "schuko": r"schuko|cee ?7/[47]|type [ef]|[ef]",
    "bs1363": r"bs ?1363(?:-1)?|uk(?: plug)?|three rectangular pins|type g|g",
    "nema1": r"nema ?1-15p?|flat blades|us(?: plug)?|two flat blades|type a|a",
    "nema5": r"nema ?5-15p?|type b|b",
    "as3112": r"as/?nzs ?3112|as ?3112|slanted blades|type i|i",
    "inlet": r"(?:iec ?60320 ?)?c(?:6|8|14)(?: inlet)?",
}
_PATTERNS = {code: re.compile(rf"(?:{pattern})\Z") for code, pattern in NAMES.items()}


def plug_kind(text: str) -> str:
    """ "europlug", "bs1363", "nema1", …; "" where the words name none of them."""
    said = " ".join(text.casefold().split())
    return next((code for code, pattern in _PATTERNS.items() if pattern.match(said)), "")
