"""Whether a piece mirrors and alternates, and the fewest moves that would mend it."""
