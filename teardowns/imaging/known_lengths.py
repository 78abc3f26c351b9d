"""Things whose size a standard fixes, as a scale beside what is measured.

A length is only as good as the thing at hand: whoever has a caliper types what it says instead.
Where a limit is marked “from memory”, the nominal size was read and the limit was not.
"""
from dataclasses import dataclass

MM = 1e-3
MEMORY = "from memory"


@dataclass(frozen=True)
class KnownLength:
    code: str
    name: str
    lengths: tuple[float, ...]    # m: one between two points, or width and height of a rectangle
    tolerance: float              # m: half-width of the limits, of each length
    source: str
    hint: str = ""                # where to click

    @property
    def uncertainty(self) -> float:
        """Standard uncertainty: limits with nothing known between them, a/√3 (GUM, 4.3.7). [m]"""
        return self.tolerance / 3 ** 0.5


def _known(code, name, millimetres, tolerance, source, hint=""):
    return KnownLength(code, name, tuple(length * MM for length in millimetres), tolerance * MM,
                       source, hint)


CARD = "The corners are round: mark where the straight edges would meet."
MIDDLES = "From the middle of one to the middle of the other, at the face of the plug."
OPENING = "Across the opening, inside the metal, at its widest."
PITCH = "From the middle of one pin to the middle of the other, where they leave the body."

BESIDE = (                     # laid beside the unit: the better choice
    _known("card", "Bank or identity card, ID-1", (85.60, 53.98), 0.13,
           f"ISO/IEC 7810:2019, ID-1; limits {MEMORY}", CARD),
    _known("card_width", "Bank or identity card, ID-1, long side", (85.60,), 0.13,
           f"ISO/IEC 7810:2019, ID-1; limits {MEMORY}"),
    _known("card_height", "Bank or identity card, ID-1, short side", (53.98,), 0.06,
           f"ISO/IEC 7810:2019, ID-1; limits {MEMORY}"),
    _known("sheet_a4", "Sheet of paper, A4", (297.0, 210.0), 2.0, f"ISO 216:2007; {MEMORY}"),
    _known("ruler_10", "Ruler, 10 mm", (10.0,), 0.1, "Common practice, no source",
           "From the middle of one line to the middle of the other."),
    _known("ruler_50", "Ruler, 50 mm", (50.0,), 0.31,
           f"Directive 2014/32/EU, annex X, class II: 0.3 mm + 0.2 mm a metre; {MEMORY}",
           "From the middle of one line to the middle of the other."),
    _known("coin_1_euro", "Coin, 1 euro", (23.25,), 0.1,
           f"Council Regulation (EU) No 729/2014; limits {MEMORY}", "Across its middle."),
)
# Of the unit itself, or of its port: a part off its own standard takes the scale with it.
ON_UNIT = (
    _known("grid_1", "Board grid of 0.1 in, one step", (2.54,), 0.1,
           f"IEC 60097; limits common practice, no source; {MEMORY}",
           "From the middle of one hole to the middle of the next."),
    _known("grid_10", "Board grid of 0.1 in, ten steps", (25.4,), 0.15,
           f"IEC 60097; limits common practice, no source; {MEMORY}",
           "From the middle of one hole to the middle of the tenth after it."),
    _known("dip_row", "Rows of pins of a DIP, 0.3 in", (7.62,), 0.26,
           f"JEDEC MS-001; limits {MEMORY}", "On the solder side, from hole to hole across."),
    _known("dip_4_pins", "DIP with 8 pins, pin 1 to pin 4", (7.62,), 0.15,
           f"JEDEC MS-001, pitch 2.54 mm; limits {MEMORY}", PITCH),
    _known("so8_4_pins", "SO-8, pin 1 to pin 4", (3.81,), 0.1,
           f"JEDEC MS-012, pitch 1.27 mm; limits {MEMORY}", PITCH),
    _known("fuse_5x20", "Fuse of 5 x 20 mm, length", (20.0,), 0.5,
           f"IEC 60127-2:2014; limits {MEMORY}", "From end to end of the caps."),
    _known("usb_c_opening", "USB Type-C receptacle, width of the opening", (8.34,), 0.06,
           f"USB Type-C Specification 2.0 (2019), 3.2.1; limits {MEMORY}", OPENING),
    _known("usb_c_plug", "USB Type-C plug, width of the shell", (8.25,), 0.06,
           f"USB Type-C Specification 2.0 (2019), 3.2.1; limits {MEMORY}"),
    _known("usb_a_opening", "USB Standard-A receptacle, opening", (12.5, 5.12), 0.1,
           f"USB 2.0 Specification (2000), 6.5.2; {MEMORY}", "The corners inside the metal."),
    _known("usb_a_plug", "USB Standard-A plug, shell", (12.0, 4.5), 0.1,
           f"USB 2.0 Specification (2000), 6.5.1; limits {MEMORY}",
           "The corners outside the metal."),
    _known("usb_micro_b_plug", "USB Micro-B plug, width of the shell", (6.85,), 0.05,
           f"Micro-USB Specification 1.01 (2007), 4; limits {MEMORY}"),
    _known("europlug_spacing", "Europlug, spacing of the pins", (18.6,), 0.6,
           f"EN 50075:1990; limits {MEMORY}", f"{MIDDLES} At the tips they stand 17.5 mm apart."),
    _known("europlug_pin", "Europlug, length of a pin", (19.0,), 0.5,
           f"EN 50075:1990; limits {MEMORY}", "From the face of the plug to the tip."),
    _known("bs1363_spacing", "BS 1363 plug, line to neutral pin", (22.2,), 0.2,
           f"BS 1363-1; limits {MEMORY}", MIDDLES),
    _known("bs1363_pin", "BS 1363 plug, width of the line or neutral pin", (6.35,), 0.15,
           f"BS 1363-1; limits {MEMORY}"),
    _known("nema1_spacing", "NEMA 1-15 plug, spacing of the blades", (12.7,), 0.3,
           f"ANSI/NEMA WD 6; {MEMORY}", MIDDLES),
    _known("c8_spacing", "IEC 60320 C8 inlet, spacing of the pins", (8.6,), 0.2,
           f"IEC 60320-1; {MEMORY}", "From the middle of one pin to the middle of the other."),
)
KNOWN_LENGTHS = BESIDE + ON_UNIT
BY_CODE = {known.code: known for known in KNOWN_LENGTHS}
