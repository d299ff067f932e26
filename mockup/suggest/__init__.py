"""Deciding before buying: what closes, which options compare how, and which designs are best."""
