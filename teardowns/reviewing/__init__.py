"""How a queue of reviews is ordered, and how far the decisions on a unit have come. No Django."""
