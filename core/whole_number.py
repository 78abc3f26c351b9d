"""A number as an address or a form of ours writes it: digits, and not too many of them."""
DIGITS = 18          # fit into a column of 64 bits


def whole_number(text: str, digits: int = DIGITS) -> int | None:
    """None of any other text: `int` alone takes ٣, 1_000 and " 7 ", and thousands of digits.

    >>> whole_number("42"), whole_number("4_2"), whole_number("")
    (42, None, None)
    """
    is_one = text.isascii() and text.isdigit() and len(text) <= digits
    return int(text) if is_one else None
