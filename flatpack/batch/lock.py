"""One batch at a time in a folder.

The lock is the system's own on an open file: it ends with the process that holds it, however that
ends, so that no lock can go stale.  The file's text only tells who holds it.  Where a disk knows
no locks (some network disks), the file's being there is the lock; it is stale when the process
that wrote it, on this machine, is gone.
"""

from __future__ import annotations

import errno
import os
import socket
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from flatpack.errors import OutputError

NAME = ".flatpack-batch.lock"
_FAR = 1 << 30
"""A byte beyond the text is locked where a lock would keep others from reading it."""


@contextmanager
def locked(folder: Path, shown: str) -> Iterator[None]:
    """Hold the folder.

    Raises:
        OutputError: another run holds it, or the lock can't be written.
    """
    path = folder / NAME
    try:
        handle = _held(path, shown)
    except OSError as error:
        reason = f"can't be written: {error.strerror or error}"
        raise OutputError(shown, reason) from None
    try:
        yield
    finally:
        # Away first, then open: whoever opened it in between notices that it has gone.
        with suppress(OSError):
            os.unlink(path)
        os.close(handle)
        with suppress(OSError):  # a system that can't remove what is open
            os.unlink(path)


def _held(path: Path, shown: str) -> int:
    while True:
        handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
        try:
            if not _lock(handle) and not _stale(handle):
                reason = f"another run is at work in it ({_who(handle)}): {_ADVICE}"
                raise OutputError(shown, reason)
            if os.path.exists(path) and os.path.samestat(os.stat(path), os.fstat(handle)):
                _sign(handle)
                return handle
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)  # its holder ended, and took the file away, while we waited


_ADVICE = "wait until it has ended, or name another folder"


def _lock(handle: int) -> bool:
    """Take the system's lock; True also where there is none to take and nobody has signed."""
    try:
        if sys.platform == "win32":
            import msvcrt

            os.lseek(handle, _FAR, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in (errno.ENOLCK, errno.ENOTSUP, errno.ENOSYS, errno.EINVAL):
            return not _text(handle)
        if error.errno in (errno.EACCES, errno.EAGAIN, errno.EWOULDBLOCK, errno.EDEADLK):
            return False
        raise
    return True


def _stale(handle: int) -> bool:
    """Signed on this machine by a process that is no more, on a disk without locks."""
    if sys.platform == "win32" or _locks(handle):
        return False
    number, _, machine = _text(handle).partition(" ")
    if machine != socket.gethostname() or not number.isdecimal():
        return False
    try:
        os.kill(int(number), 0)
    except ProcessLookupError:
        return True
    except OSError:
        return False
    return False


def _locks(handle: int) -> bool:
    """Whether the disk knows locks: one that is shared would then be refused for being held."""
    import fcntl

    try:
        fcntl.flock(handle, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except OSError as error:
        return error.errno in (errno.EACCES, errno.EAGAIN, errno.EWOULDBLOCK)
    fcntl.flock(handle, fcntl.LOCK_UN)
    return True


def _sign(handle: int) -> None:
    os.ftruncate(handle, 0)
    os.lseek(handle, 0, os.SEEK_SET)
    os.write(handle, f"{os.getpid()} {socket.gethostname()}".encode())


def _text(handle: int) -> str:
    os.lseek(handle, 0, os.SEEK_SET)
    return os.read(handle, 500).decode("utf-8", "replace")


def _who(handle: int) -> str:
    number, _, machine = _text(handle).partition(" ")
    return f"process {number} on {machine}" if machine else "it hasn't signed yet"
