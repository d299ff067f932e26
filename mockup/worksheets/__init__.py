"""The sheets of a job in words: buy list, quote, build sheet, gauge; one for every caller."""
