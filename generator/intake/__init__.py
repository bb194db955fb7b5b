"""Questions to the machinist, and what becomes of the answers: a new job, the shop's lathe, a new archive."""
