"""Formulas and tables that rules share: arrays in, arrays out, no policy."""
