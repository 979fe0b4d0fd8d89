"""Runs the command line: `python -m halfpail`."""

from halfpail.cli.main import main

if __name__ == "__main__":
    main()
