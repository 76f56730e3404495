"""`python -m counterproof` is the command line."""

from counterproof.cli import main

main()
