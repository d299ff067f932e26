"""Balloons along a frame: filling, clusters, nestling, settling and closing."""
