"""Runs whole commands and tells what they took: seconds by the clock, processor time, peak memory."""
import dataclasses
import os
import shlex
import signal
import tempfile
import time

DONE = (0, 4)  # 4: done, and the answer is "not possible"


class CommandFailed(Exception):
    """What was run, how it ended and what it said."""


@dataclasses.dataclass
class Ran:
    seconds: float
    processor_s: float
    peak_mb: float
    out: str
    exit_code: int


def run_timed(command):
    """Runs it to its end, as it would be from a shell.

    The peak memory has a floor: the system hands the child what this process had at its start, so
    whoever calls this should stay small and leave pictures to others.
    """
    command = [str(word) for word in command]
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as said:
        start = time.monotonic()
        try:
            child = os.posix_spawnp(command[0], command, os.environ, file_actions=[
                (os.POSIX_SPAWN_OPEN, 0, os.devnull, os.O_RDONLY, 0),
                (os.POSIX_SPAWN_DUP2, out.fileno(), 1), (os.POSIX_SPAWN_DUP2, said.fileno(), 2)])
        except OSError as error:
            raise CommandFailed(f"{command[0]}: {error.strerror}") from None
        try:
            _, status, used = os.wait4(child, 0)
        except BaseException:
            end(child)
            raise
        seconds = time.monotonic() - start
        out.seek(0)
        said.seek(0)
        told, complaint = (file.read().decode(errors="replace") for file in (out, said))
    code = os.waitstatus_to_exitcode(status)
    if code not in DONE:
        how = f"ended with {code}" if code >= 0 else f"was ended by {signal.Signals(-code).name}"
        raise CommandFailed(f"{shlex.join(command)}\n{how}, saying: {complaint.strip() or 'nothing'}")
    return Ran(seconds, used.ru_utime + used.ru_stime, used.ru_maxrss * 1.024e-3, told, code)


def end(child, patience_s=5):
    """Asked as by Ctrl-C, so that it may clear away what it had begun; then without asking."""
    os.kill(child, signal.SIGINT)
    until = time.monotonic() + patience_s
    while os.waitpid(child, os.WNOHANG) == (0, 0):
        if time.monotonic() > until:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            return
        time.sleep(0.02)
