"""From printed text to facts: quantities, component markings, rating plates. Pure Python."""
