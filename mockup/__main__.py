"""``python -m mockup``."""

from mockup.cli.main import main

main()
