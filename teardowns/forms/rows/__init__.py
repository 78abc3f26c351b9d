"""Forms of the tables of a section, one kind of evidence a file."""
