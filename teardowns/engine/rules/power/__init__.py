"""Lines of evidence about the continuous output power, in watts."""
