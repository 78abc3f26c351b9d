"""A page's markup → what the typesetter draws: blocks, drawings of fixed size, the PDF itself.

Nothing here knows Django or a unit. Words reach the typesetter as data and never as its markup.
"""
