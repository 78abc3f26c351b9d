"""Lines of evidence about the highest output voltage, in volts."""
