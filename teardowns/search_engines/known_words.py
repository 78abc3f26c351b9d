"""Every word that the index has, once: a beginning is looked for by the words that begin so.

By a beginning each database gathers all rows of all its words before it can tell the newest; by a
word it finds the newest first, however many rows have it. Triggers learn words in the transaction
that writes them; words whose last row went are forgotten later. Of a beginning that too many words
have, the index is asked itself.
"""
TABLE = "search_words"
MOST = 64               # words that a beginning is spelt out by
