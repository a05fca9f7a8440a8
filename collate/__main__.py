"""`python -m collate`."""

from collate.cli.start import main

if __name__ == "__main__":
    main()
