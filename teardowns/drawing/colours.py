"""The colours of the drawings: the site's light tokens, and quiet tones for materials."""
PAPER, SHEET, WASH = "#f6f7f4", "#ffffff", "#e9edea"
INK, INK_2, RULE, EDGE, ACCENT = "#17222d", "#4c5964", "#ccd3d2", "#74818a", "#00665a"

BOARD, SOLDER_MASK, SLOT = "#cbdacf", "#b9cdbf", PAPER
COPPER, COPPER_2, TIN = "#c9a878", "#b5a58c", "#dfe3e4"
METAL, METAL_DARK, STEEL = "#cfd6da", "#8f9aa3", "#b4bfc6"
PLASTIC, PLASTIC_LIGHT = "#3b4650", "#dfe2df"
CAN, CAN_STRIPE, POLYMER = "#a9b6c4", "#6d7b8a", "#dde2e6"
FERRITE, BOBBIN, TAPE = "#59626a", "#efe6cf", "#ecd68f"
ENAMEL, TRIPLE, AUXILIARY = "#a8623a", "#e3bf57", "#8a5638"
DISC, BEIGE = "#8fb0cc", "#d9c9a8"
BURNT, LACQUER, RESIDUE = "#6b4a33", "#9fc4d8", "#8a6a3c"


def with_alpha(colour: str, alpha: float) -> tuple[int, int, int, int]:
    """A see-through tone. alpha : 0 to 1"""
    red, green, blue = (int(colour[i:i + 2], 16) for i in (1, 3, 5))
    return red, green, blue, round(255 * alpha)
