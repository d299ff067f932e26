"""Several pieces where they stand in one setting, drawn and judged together."""
