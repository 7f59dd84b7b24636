"""``python -m inventory`` is the command ``salvage``."""

from inventory.cli.start import main

if __name__ == "__main__":
    main()
