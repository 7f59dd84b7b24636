"""The command line: parse, call the bench, print."""
