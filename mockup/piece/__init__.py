"""A design with its geometry: placed balloons and findings."""
