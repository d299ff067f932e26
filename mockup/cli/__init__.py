"""The commands."""

import gc

# A command is short and makes little rubbish: looking for it every 700 objects while libraries
# load costs a start an eighth of its time.
gc.set_threshold(100_000, 20, 20)
