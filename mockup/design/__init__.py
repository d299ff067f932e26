"""What a piece file says, and reading it."""
