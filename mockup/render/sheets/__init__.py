"""The sheets a client or a builder gets, composed from a drawn view and measured lettering."""
