"""`python -m collate`."""

from collate.cli.main import main

if __name__ == "__main__":
    main()
