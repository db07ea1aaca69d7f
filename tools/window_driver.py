"""Works a window of Backrow as hands do: a screen of its own, keys, the pointer, and what is seen.

Needs Xvfb and xdotool. Pictures come late on a busy machine, so nothing here waits for a time: it
waits until something is as it should be, and gives up after a long while.
"""
import contextlib
import ctypes
import json
import os
import shutil
import signal
import struct
import subprocess
import time
import zlib

PATIENCE_S = 100


class Failed(Exception):
    """Something is not as it must be, in one line."""


def end_with_us():
    """In a child: whatever becomes of this process, the child ends as well."""
    ctypes.CDLL(None).prctl(1, signal.SIGKILL)  # PR_SET_PDEATHSIG


def wait_for(what, condition, patience_s=PATIENCE_S):
    """The first true answer of the condition."""
    until = time.monotonic() + patience_s
    while True:
        answer = condition()
        if answer:
            return answer
        if time.monotonic() > until:
            raise Failed(f"waited in vain for {what}")
        time.sleep(0.05)


class Screen:
    """A screen that nobody looks at."""

    def __init__(self, folder, width, height):
        for needed in ("Xvfb", "xdotool"):
            if shutil.which(needed) is None:
                raise Failed(f"{needed} is not installed")
        self.width, self.height = width, height
        self.frame = os.path.join(folder, "Xvfb_screen0")
        ours, theirs = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(theirs), "-screen", "0", f"{width}x{height}x24", "-fbdir",
             folder, "-nolisten", "tcp"],
            pass_fds=[theirs], preexec_fn=end_with_us, stderr=subprocess.DEVNULL)
        os.close(theirs)
        with os.fdopen(ours) as told:
            number = told.readline().strip()
        if not number:
            raise Failed("Xvfb does not start")
        self.display = ":" + number

    def close(self):
        self.server.kill()
        self.server.wait()

    def hand(self, *words):
        """xdotool with these words."""
        done = subprocess.run(["xdotool", *map(str, words)], env={**os.environ, "DISPLAY": self.display},
                              capture_output=True, text=True)
        return done.stdout if done.returncode == 0 else None

    def look(self):
        with open(self.frame, "rb") as file:
            return Seen(file.read())


def write_png(path, rows):
    """Of rows of red, green, blue."""
    def chunk(kind, content):
        return (struct.pack(">I", len(content)) + kind + content +
                struct.pack(">I", zlib.crc32(kind + content)))

    with open(path, "wb") as out:
        out.write(b"\x89PNG\r\n\x1a\n" +
                  chunk(b"IHDR", struct.pack(">IIBBBBB", len(rows[0]) // 3, len(rows), 8, 2, 0, 0, 0)) +
                  chunk(b"IDAT", zlib.compress(b"".join(b"\0" + row for row in rows), 9)) +
                  chunk(b"IEND", b""))


class Seen:
    """What was on the screen; a box is (left, top, right, bottom) in pixels."""

    def __init__(self, xwd):
        header = struct.unpack(">25I", xwd[:100])
        self.width, self.height, self.stride = header[4], header[5], header[12]
        self.pixels = xwd[header[0] + header[19] * 12:]

    def rows(self, box):
        """Bytes of blue, green, red and nothing."""
        left, top, right, bottom = (int(round(x)) for x in box)
        left, right = max(0, left), min(self.width, right)
        for y in range(max(0, top), min(self.height, bottom)):
            yield self.pixels[y * self.stride + left * 4:y * self.stride + right * 4]

    def patch(self, box):
        return b"".join(self.rows(box))

    def share_of(self, colour, box):
        """How much of the box has just this colour."""
        wanted = bytes(reversed(colour))
        count = area = 0
        for row in self.rows(box):
            area += len(row) // 4
            count += sum(row[i:i + 3] == wanted for i in range(0, len(row), 4))
        return count / max(1, area)

    def share_unlike(self, other, box, by=12):
        """How much of the box differs in green by more than that from what it was."""
        count = area = 0
        for here, there in zip(self.rows(box), other.rows(box)):
            area += len(here) // 4
            count += sum(abs(a - b) > by for a, b in zip(here[1::4], there[1::4]))
        return count / max(1, area)

    def spread(self, box):
        """Of green: 0 where all is of one colour."""
        values = b"".join(row[1::4] for row in self.rows(box))
        mean = sum(values) / len(values)
        return (sum((v - mean) ** 2 for v in values) / len(values)) ** 0.5

    def sharpness(self, box):
        """Mean square of the steps of green from pixel to pixel: blur takes it away."""
        total = count = 0
        before = None
        for row in self.rows(box):
            green = row[1::4]
            total += sum((a - b) ** 2 for a, b in zip(green, green[1:]))
            count += len(green) - 1
            if before is not None:
                total += sum((a - b) ** 2 for a, b in zip(green, before))
                count += len(green)
            before = green
        return total / max(1, count)

    def write(self, path):
        rows = []
        for row in self.rows((0, 0, self.width, self.height)):
            line = bytearray(len(row) // 4 * 3)
            line[0::3], line[1::3], line[2::3] = row[2::4], row[1::4], row[0::4]
            rows.append(line)
        write_png(path, rows)


class Window:
    """The program with a scene, or with its first page, and a hand at it."""

    def __init__(self, program, screen, folder, scene, *options):
        self.screen = screen
        self.told = os.path.join(folder, "places.json")
        if os.path.exists(self.told):
            os.remove(self.told)
        self.said = os.path.join(folder, "said.txt")
        with open(self.said, "w") as said:
            self.process = subprocess.Popen(
                [program, "rehearse", *([scene] if scene else []), "--places", self.told,
                 *map(str, options)],
                cwd=folder, env=environment(folder, screen.display), stdout=said, stderr=said,
                preexec_fn=end_with_us)
        self.until("the window", lambda now: now)
        self.id = wait_for("the window's number", lambda: self.screen.hand(
            "search", "--name", "Backrow"))
        self.id = self.id.split()[-1]
        self.screen.hand("windowfocus", self.id)

    def now(self):
        """What the window tells of itself; nothing before its first frame."""
        if self.process.poll() is not None:
            with open(self.said) as said:
                raise Failed(f"the program ended by itself, code {self.process.returncode}: "
                             f"{said.read().strip()}")
        try:
            with open(self.told, encoding="utf-8") as file:
                return json.load(file)
        except FileNotFoundError:
            return None

    def until(self, what, condition):
        def holds():
            now = self.now()
            return now if now and condition(now) else None

        try:
            return wait_for(what, holds)
        except Failed as failed:
            now = {key: value for key, value in (self.now() or {}).items() if key != "places"}
            raise Failed(f"{failed}; the window tells {json.dumps(now)}") from None

    def settled(self):
        """Once everything is rendered of what the scene is now."""
        return self.until("finished pictures", lambda now: now["settled"])

    def still(self):
        """Once nothing on it moves any more."""
        last = [None, time.monotonic()]

        def stays(now):
            if now["places"] != last[0]:
                last[:] = now["places"], time.monotonic()
            return time.monotonic() - last[1] > 0.4
        return self.until("a window that stays", stays)

    def seen(self, what, condition):
        """The screen, once it is as it should be."""
        def holds():
            look = self.screen.look()
            return look if condition(look) else None

        self.now()
        return wait_for(what + " on the screen", holds)

    def place(self, name):
        places = self.now()["places"]
        if name not in places:
            raise Failed(f"the window has no “{name}”")
        return places[name]

    def middle(self, name):
        left, top, right, bottom = self.place(name)
        return (left + right) / 2, (top + bottom) / 2

    def keys(self, *names):
        for name in names:
            if name not in ("Return", "Escape"):
                self.until("a field to give back the keys", lambda now: not now["typing"])
            self.screen.hand("key", "--clearmodifiers", name)

    def changes(self, *names):
        """Keys each of which changes the scene."""
        for name in names:
            edition = self.now()["edition"]
            self.keys(name)
            self.until(f"what {name} does", lambda now: now["edition"] != edition)

    def point(self, x, y):
        self.screen.hand("mousemove", round(x), round(y))

    def click(self, name):
        self.point(*self.middle(name))
        self.screen.hand("click", 1)

    def drag(self, start, by, held=()):
        """From one place by so many pixels, in small steps, with these keys held."""
        for key in held:
            self.screen.hand("keydown", key)
        edition = self.now()["edition"]
        self.point(*start)
        self.screen.hand("mousedown", 1)
        self.until("a hold on what is to be dragged", lambda now: now["holding"])
        steps = max(2, round(max(abs(by[0]), abs(by[1])) / 3))
        for i in range(1, steps + 1):
            self.point(start[0] + by[0] * i / steps, start[1] + by[1] * i / steps)
        self.until("a drag to move something", lambda now: now["edition"] != edition)
        self.screen.hand("mouseup", 1)
        self.until("the hand to let go", lambda now: not now["holding"])
        for key in held:
            self.screen.hand("keyup", key)

    def bring(self, name):
        """By the wheel, into view in the part that holds it; each turn of it is waited for."""
        way = "below"
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            now = self.now()
            if name in now["places"]:
                return now["places"][name]
            led = next((key for key, part in now["parts"].items() if part[way] > 0.5), None)
            if led is None:
                way = "above" if way == "below" else "below"
                time.sleep(0.02)
                continue
            left, top, _, bottom = now["parts"][led]["box"]
            self.point(left + 3, (top + bottom) / 2)
            self.screen.hand("click", 5 if way == "below" else 4)
            self.until("the wheel to turn", lambda then: led not in then["parts"] or
                       then["parts"][led][way] != now["parts"][led][way])
        raise Failed(f"“{name}” does not come into view; the window tells of {list(now['parts'])}")

    def press(self, name):
        """Brought into view first."""
        self.bring(name)
        self.still()
        self.click(name)

    def choose(self, id, word):
        """One of a list of words."""
        self.press("choose " + id)
        self.until("the list of words", lambda now: "word " + word in now["places"])
        self.click("word " + word)
        self.until("the list to close", lambda now: "word " + word not in now["places"])

    def write_into_only(self, name, text):
        """A field, in place of what it holds; it is left to others to enter it."""
        self.press(name)
        self.until("a field to type into", lambda now: now["typing"])
        self.screen.hand("key", "ctrl+a")
        self.screen.hand("type", "--delay", 1, text)

    def write_into(self, name, text):
        self.write_into_only(name, text)
        self.screen.hand("key", "Return")
        self.until("the field to be left", lambda now: not now["typing"])

    def type_path(self, path):
        """Into the field of a sheet, all of which is chosen at first."""
        self.until("a field for a path", lambda now: now["typing"])
        self.screen.hand("type", "--delay", 1, path)
        self.keys("Return")

    @contextlib.contextmanager
    def asleep(self):
        """Whatever hands do meanwhile comes between two frames, as on a machine that draws slowly."""
        os.kill(self.process.pid, signal.SIGSTOP)
        try:
            yield
        finally:
            os.kill(self.process.pid, signal.SIGCONT)

    def worked_s(self):
        """Processor time so far."""
        with open(f"/proc/{self.process.pid}/stat") as file:
            numbers = file.read().rsplit(")", 1)[1].split()
        return (int(numbers[11]) + int(numbers[12])) / os.sysconf("SC_CLK_TCK")

    def kill(self):
        self.process.kill()
        self.process.wait()

    def ended(self):
        """Its exit code, once it has closed by itself."""
        wait_for("the window to close", lambda: self.process.poll() is not None)
        return self.process.returncode


def environment(folder, display):
    """A home of its own, so that nothing of the user's is read or written."""
    ours = {key: value for key, value in os.environ.items()
            if key not in ("DISPLAY", "WAYLAND_DISPLAY", "XAUTHORITY")}
    ours.update(HOME=folder, XDG_STATE_HOME=os.path.join(folder, "state"))
    if display is not None:
        ours["DISPLAY"] = display
    return ours
