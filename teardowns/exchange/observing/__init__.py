"""What the rows of each noun observe: one file a noun, gathered by exchange/observations.py."""
