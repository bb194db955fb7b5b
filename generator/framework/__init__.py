"""mkdocs and its theme: the only part of the program that imports them, or knows what the theme writes.

How the sheets get a site without them is in DEVELOPERS.md.
"""
