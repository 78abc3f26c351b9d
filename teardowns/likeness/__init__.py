"""Whether two units share a board: what is compared, how it is found, and how much it says."""
