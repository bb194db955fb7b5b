"""One module or folder a thread family, each with a `FAMILY`; `registry` finds them by looking here."""
