"""What is taken for granted where nobody measured or read it: each with its key, shown beside every
result that rests on it."""

ASSUMPTIONS = {
    "mains_voltage": "The plate was not read: the requirement is worked out for 150 V and for "
                     "250 V mains.",
    "plug_mains": "The plate was not read: the plug tells the mains voltage.",
    "plug_fits_plate": "The kind of plug was not noted: it is taken to fit no higher mains than "
                       "the plate names.",
    "plug_above_plate": "The plug fits higher mains than the plate names: both are looked at.",
    "overvoltage_category": "Overvoltage category II, as for what is plugged into an outlet.",
    "working_voltage": "The working voltage across the barrier was not measured: 250 V rms, up to "
                       "285 V in the transformer (for 100 to 127 V mains alone 125 V, up to "
                       "160 V).",
    "working_peak": "Its repetitive peak was not measured: 420 V, up to 550 V in the transformer "
                    "(for 100 to 127 V mains alone 210 V, up to 350 V).",
    "pollution_degree": "Pollution degree 2, as in a home.",
    "unsealed": "Pollution degree 1 is that of a sealed path: degree 2 is looked at too.",
    "contamination": "Dirt was seen: pollution degree 3 is looked at too.",
    "altitude": "Used at no more than 2000 m.",
    "bare_path": "Nobody noted a coating: a bare path is taken.",
    "clean_path": "Nobody noted dirt: a clean path is taken.",
    "plain_path": "Nobody noted a groove, slot or floating metal: a plain path is taken.",
    "straight_path": "The way straight across the groove was not recorded: what was recorded is "
                     "taken for it.",
    "earthed": "Whether the unit has an earth was not noted: it is taken to have one.",
    "not_inside": "Where the layer lies was not noted: not inside an optocoupler.",
    "no_particle": "Nobody noted a solder ball or clipping in the gap: none is taken.",
    "open_slot": "One end of the slot was not recorded: it leaves the board there.",
    "material_group": "The material was not identified: group III.",
    "uncertainty": "The uncertainty was not stated: what its method usually leaves is taken.",
    "tolerance": "No tolerance was read: ± 20 % is taken.",
    "highest_mains": "1.1 times the highest rated mains voltage.",
    "mains_frequency": "60 Hz mains are taken, the higher of both frequencies in use.",
    "rated_mains": "The plate was not read: ratings are compared with 100 V and with 240 V mains.",
    "mains_240": "The plate was not read: 240 V mains are taken.",
    "bound": "Not measured: the upper bound by the capacitors is taken.",
    "printed_capacitance": "The capacitance is taken as printed, with its tolerance.",
    "no_other_capacitance": "What the capacitors print was not read: the measured value is taken.",
    "no_active_discharge": "Nobody looked for an active discharge part: none is taken.",
    "no_breakdown": "No breakdown was reported.",
    "only_a_limit": "A limit alone was read, and nobody read less than that.",
    "nothing_ahead": "Nobody noted a varistor or capacitor ahead of the fuse: none is taken.",
    "no_doubler": "Nobody noted a voltage doubler: none is taken.",
    "perhaps_doubler": "Nobody noted a voltage doubler: several bulk capacitors may be its "
                       "halves.",
    "no_corrector": "Nobody noted a power-factor corrector: none is taken.",
    "part_voltage": "The rated voltage of the part was not read: it is taken to fit its class.",
    "single_part": "The number of pieces was not noted: one is taken.",
    "no_61558": "IEC 61558 is not named: its thickness is not asked for.",
    "not_by_hand": "Nobody noted that the case opens by hand.",
    "not_dropped": "Nobody noted that a fall opened the case.",
    "no_clips": "Nobody noted clips or screws.",
    "no_earth_sleeve": "Nobody noted a sleeve on an earth pin: none is taken.",
    "plastic_case": "The material of the case was not noted: plastic is taken.",
    "ambient_25": "No warmest air is marked: 25 °C are taken.",
    "printed_load": "The load during the temperature readings, or the printed output, was not "
                    "noted: they are taken as made at the printed output.",
    "printed_temperature": "The printed temperature was not read: 85 °C and 105 °C (of a board "
                           "105 °C and 130 °C) are looked at.",
    "no_other_voltage": "The highest voltage that was measured counts.",
    "printed_voltage": "The voltage without load was not measured: the printed one is taken.",
    "no_loose_metal": "Nobody noted loose metal: none is taken.",
    "no_bridging": "Nobody noted that loose metal can bridge anything.",
    "not_glued": "Nobody noted that the weight is held by adhesive alone.",
    "no_flame": "No flame was reported.",
    "no_plain_resin": "Nobody noted a resin code without a flame retardant.",
    "air_near_25": "The temperature of the air was not noted: air near 25 °C is taken.",
    "touch_network": "How it was measured is not part of the record: a network of IEC 60990 is "
                     "taken.",
    "contact": "A case that is touched for 1 s to 10 s, or for less than 1 s.",
    "thermal_class": "The thermal class is not known: 105 and 130 are looked at.",
    "intact_layers": "Nobody noted the condition of the layers: they are taken as intact.",
    "core_primary": "The core counts as a part of the mains side.",
    "shield_primary": "A shield winding counts as a part of the mains side.",
}
