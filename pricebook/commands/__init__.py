"""One module for each command, loaded only when the command runs."""
