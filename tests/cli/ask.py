"""ask.py PROGRAM ARG... : runs the program on a pseudo-terminal of its own and types the lines of standard input into it,
one each time it waits behind "> ". The line "^C" types Ctrl-C, the line "^D" ends the input. Prints all that appeared;
exits as the program did (128 + signal)."""
import os, pty, select, signal, sys, time

answers = [line.rstrip("\n") for line in sys.stdin]
pid, fd = pty.fork()
if pid == 0:
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # a test run in the background hands on that it is ignored
    os.execv(sys.argv[1], sys.argv[1:])
seen, answered_at, end = b"", 0, time.time() + 60
while time.time() < end:
    ready, _, _ = select.select([fd], [], [], 1)
    if ready:
        try:
            part = os.read(fd, 65536)
        except OSError:
            break
        if not part:
            break
        seen += part
    if seen[answered_at:].endswith(b"> "):
        answered_at = len(seen)
        answer = answers.pop(0) if answers else "^D"
        os.write(fd, {"^C": b"\x03", "^D": b"\x04"}.get(answer, (answer + "\n").encode()))
if time.time() >= end:
    os.kill(pid, signal.SIGKILL)
_, status = os.waitpid(pid, 0)
sys.stdout.write(seen.decode("utf-8", "replace").replace("\r\n", "\n"))
sys.exit(os.waitstatus_to_exitcode(status) if os.WIFEXITED(status) else 128 + os.WTERMSIG(status))
