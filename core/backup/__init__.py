"""Copies of everything that cannot be made anew, each a bag (BagIt, RFC 8493), and the way back.

A bag holds the database at one moment, every file of the private storages, and `state.json`: end of
the log, version and migrations. A file that the bag before holds already is one more hard link to
it. Settings and SECRET_KEY are in no bag.
"""
