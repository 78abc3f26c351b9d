"""What many opened units have in common, as numbers: bands, spreads, cells. No Django, no rows."""
