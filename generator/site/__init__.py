"""The site: the archive of all sheets, swapped in as one step; the only part that knows mkdocs."""
