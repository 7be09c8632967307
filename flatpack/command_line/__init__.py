"""The command line: one command a file; the only place that prints and sets the exit status."""
