"""Writing: a sheet becomes text, drawings and a page; the only importer of jinja2."""
