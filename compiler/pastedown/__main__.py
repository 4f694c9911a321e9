"""`python -m pastedown` is the same as `pastedown`."""

import sys

from pastedown.command import main

if __name__ == "__main__":
    sys.exit(main())
