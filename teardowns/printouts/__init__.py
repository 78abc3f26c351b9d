"""Records on paper: what stands in them, and how the worker makes them."""
