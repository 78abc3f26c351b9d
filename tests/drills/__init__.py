"""What is tried by one command and takes too long, or too much of a machine, for every run."""
