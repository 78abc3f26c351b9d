"""What the safety standards ask for: tables and formulas, each row with its source."""
