"""The one HTML file for the client: it needs no script, no network and no mouse."""
