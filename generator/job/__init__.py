"""Read: job and shop files -> checked models, every value with its place."""
