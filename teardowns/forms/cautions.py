"""What to say before mains parts are touched or powered (generic bench practice)."""

DISCHARGE = (
    "Unplug it and check the pins. The main capacitor can hold 300\u202fV or more for minutes or "
    "days. Measure it, discharge it through a resistor (2.2 to 10\u202fkΩ, power type, insulated "
    "clips), measure again. A screwdriver short throws molten metal and may hide damage."
)
NO_EARTHED_PROBE = (
    "Never clip an earthed oscilloscope lead to the mains side: the lead becomes the fault path. "
    "Use a differential probe, or do not measure there."
)
ISOLATION = (
    "An isolation transformer for the unit under test reduces the earth path. It does not protect "
    "between two mains-side points, and a residual-current device ahead of it no longer protects "
    "the far side."
)
RESIDUAL_CURRENT = (
    "Supply the bench through a residual-current device (30\u202fmA type or the local equivalent). "
    "It does not protect against contact across line and neutral."
)
FIRST_POWER = (
    "First power-up of an opened unit: an incandescent lamp in series or a current-limited source, "
    "no hands near, eye protection, a cover over the unit."
)
SURFACE = (
    "Non-flammable surface, nothing unattended, a suitable extinguisher within reach, lithium "
    "packs kept away."
)
SECOND_PERSON = (
    "One hand, no jewellery, and a second person who knows where the switch is and how to call "
    "for help."
)
TESTERS = (
    "High-voltage and insulation testers deliver dangerous voltage and leave charge behind: "
    "trained persons, interlocked fixture, discharge afterwards."
)
OPENED = (
    "A unit that was opened is no longer safe to use. Cut the pins or mark it “OPENED - DO NOT "
    "USE”, and recycle it."
)
NO_FAULTS = "Do not create faults on a mains-connected unit for this project."

DEFERRAL = (
    "This page records what one person found in one unit. It is not a safety certificate, an "
    "approval, or advice to use, repair or open a product. Electrical work and tests on "
    "mains-powered equipment are regulated differently from country to country: follow the local "
    "wiring and product-safety rules and leave energised work to people qualified and, where "
    "required, licensed for it. If a product has shocked someone, smoked or become too hot to "
    "hold, stop using it and tell the seller and your market-surveillance authority."
)
