"""Published figures, one CSV file a table, headed by its source."""
