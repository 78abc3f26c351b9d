"""Three honest chargers thought through by hand, as a bench would see them.

10 W: 5 V 2 A from 100 to 240 V. At 100 V it draws 10/0.75 = 13.3 W, 13.3/(100 · 0.58) = 0.23 A,
which put 0.53 W into 10 Ω; the bridge carries 13/127 = 0.10 A. The secondary has 2 A · 1.6 =
3.2 A rms and the capacitors √(3.2² − 2²) = 2.5 A of ripple, rather more than two wet cans of
8 × 12 mm are rated for. Primary: 0.79/0.9725 · 127 V · Ī = 10 W, Ī = 0.097 A, 0.16 A rms:
8 A/mm² in 0.16 mm.

20 W: 9 V 2.22 A, 5 V 3 A. 23.3 W and 0.40 A at 100 V. 3 A · 1.6 = 4.8 A rms, 3.7 A of ripple in
one polymer can of 8 × 11.5 mm; 10 mΩ hot 15 mΩ: 0.35 W. Primary 20/(0.88 · 127) = 0.179 A,
0.30 A rms: 8 A/mm² in 0.22 mm.

65 W: 20 V 3.25 A, 5 V 3 A. 72 W, 1.25 A at 100 V. 5.2 A rms, 4.1 A of ripple in two polymer
cans of 8 × 11.5 mm; 10 mΩ hot 15 mΩ: 0.41 W. Primary 65/(0.92 · 127) = 0.556 A, 0.94 A rms: 6 A/mm²
in twenty strands of 0.1 mm; secondary 8 A/mm² in eighty.
"""
from tests.engine.make import WIDE, watts

MM = 1e-3
SEEN = (("rectifier_full_wave", 1.0, 0.0), ("power_factor_corrector", 0.0, 0.0))


def _read(code, value, share=0.0):
    return (code, value, share * value)


TEN_WATTS = [
    *WIDE, *SEEN, _read("bridge_current_rating", 0.5), _read("fuse_rating", 1.0),
    _read("fusible_resistance", 10.0, 0.03), _read("fusible_power_rating", 1.0),
    _read("rectifier_current_rating", 5.0), _read("output_capacitor_diameter", 8 * MM, 0.01),
    _read("output_capacitor_length", 12 * MM, 0.02), _read("output_capacitor_count", 2.0),
    _read("primary_wire_diameter", 0.16 * MM, 0.03), _read("primary_strands", 1.0),
    _read("secondary_wire_diameter", 0.50 * MM, 0.03), _read("secondary_strands", 2.0),
]
TWENTY_WATTS = [
    *WIDE, *SEEN, _read("bridge_current_rating", 0.8), _read("fuse_rating", 1.6),
    _read("synchronous_on_resistance", 0.010),
    _read("output_capacitor_diameter", 8 * MM, 0.01),
    _read("output_capacitor_length", 11.5 * MM, 0.02), _read("output_capacitor_count", 1.0),
    _read("primary_wire_diameter", 0.22 * MM, 0.03), _read("primary_strands", 1.0),
    _read("secondary_wire_diameter", 0.60 * MM, 0.03), _read("secondary_strands", 2.0),
]
SIXTY_FIVE_WATTS = [
    *WIDE, *SEEN, _read("bridge_current_rating", 2.0), _read("fuse_rating", 3.15),
    _read("synchronous_on_resistance", 0.010),
    _read("output_capacitor_diameter", 8 * MM, 0.01),
    _read("output_capacitor_length", 11.5 * MM, 0.02), _read("output_capacitor_count", 2.0),
    _read("primary_wire_diameter", 0.10 * MM, 0.03), _read("primary_strands", 20.0),
    _read("secondary_wire_diameter", 0.10 * MM, 0.03), _read("secondary_strands", 80.0),
]
NAN = watts(0.0)[0]
# name: what is seen, what is claimed
HONEST = {
    "10 W": (TEN_WATTS, [(5.0, 2.0, NAN)]),
    "20 W": (TWENTY_WATTS, [(9.0, 2.22, NAN), (5.0, 3.0, NAN)]),
    "65 W": (SIXTY_FIVE_WATTS, [(20.0, 3.25, NAN), (5.0, 3.0, NAN)]),
}
