"""Computing: a checked job and the shop become a sheet, one module a section."""
