"""The command line: parses, calls, prints, exits; decides nothing."""
