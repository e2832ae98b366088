"""What people read when the program itself is at fault."""

import os
import traceback


def unforeseen(error: Exception) -> str:
    """One sentence for a fault of ours; the traceback goes to standard error where DRAFTHAND_TRACEBACK is set."""
    if os.environ.get("DRAFTHAND_TRACEBACK"):
        traceback.print_exc()
    said = " ".join(str(error).split())[:200]
    return (f"something went wrong inside drafthand ({type(error).__name__}: {said}), which is a fault of the program; "
            "set DRAFTHAND_TRACEBACK=1 and report what it prints")
