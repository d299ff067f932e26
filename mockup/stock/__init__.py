"""From placed balloons to bags, prices and sheets for the build."""
