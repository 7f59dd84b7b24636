"""What can go wrong for the person at the bench, each with the exit code it ends in.

One parent, few children: only the command line turns them into a sentence and a code.
Anything that is not an ``InventoryError`` is a defect of ours, not a mistake of theirs.
"""


class InventoryError(Exception):
    """Something a person can understand and act on; its text is one clear sentence."""

    exit_code = 1


class NotFound(InventoryError):
    """What was asked for is not on this shelf."""


class Refused(InventoryError):
    """A rule, or another bench that was quicker, says no; nothing was changed."""


class WrongInput(InventoryError):
    """What was typed or loaded cannot be understood; nothing was changed."""

    exit_code = 2


class StoreUnusable(InventoryError):
    """The shelf file cannot be opened, read or written; what was acknowledged is safe."""

    exit_code = 3
