"""Drawing: a record of shapes in mm, and the writers that replay it."""
