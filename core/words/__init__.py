"""What is printed, in the reader's language.

Every room writes plain English; a template's text stands in `{% translate %}` and
`{% blocktranslate %}`, and what a room wrote is printed with `|said`. Records stay as they were
written: a language is put on where they are shown.
"""
