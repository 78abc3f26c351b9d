"""Markings that differ in nothing but case and what people write between the letters."""
APART = " -/._"


def alike(marking: str) -> str:
    """What two spellings of one marking have in common: `pz 63-18` and `PZ6318` give `PZ6318`."""
    return "".join(letter for letter in marking.upper() if letter not in APART)
