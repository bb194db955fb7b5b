"""Pure arithmetic of the trade: floats in, floats out, one module a chapter."""
