"""Mirror and alternation, and the least change that mends them."""
