"""How soon a window shows its first picture, how soon it is done, and how it follows the hand."""
import json
import math
import os
import shutil
import statistics
import tempfile
import threading
import time

from window_driver import Screen, Window, wait_for

SIZE = (1366, 768)
DRAG_S, STEPS_A_SECOND, SWING_PX = 5, 60, 12
KEYS = ["s", "o"] * 6  # a third of a stop down, and up again
PATIENCE_S = 900


class Watch(threading.Thread):
    """Notes when the window first tells of a picture, and of all being done.

    Beside the hand that opens the window, which must find its number first and would come late."""

    def __init__(self, path):
        super().__init__(daemon=True)
        self.path, self.start_s = path, time.monotonic()
        self.first_picture_s = self.settled_s = None
        self.is_over = False

    def run(self):
        while not self.is_over and self.settled_s is None:
            try:
                with open(self.path, encoding="utf-8") as file:
                    now = json.load(file)
            except (FileNotFoundError, ValueError):
                now = {}
            took_s = time.monotonic() - self.start_s
            if self.first_picture_s is None and now.get("picture_samples"):
                self.first_picture_s = took_s
            if now.get("settled"):
                self.settled_s = took_s
            time.sleep(0.005)


def swing(window):
    """Carries the camera to and fro in the view from above, by one hand that never rests."""
    x, y = window.middle("lens")
    window.point(x, y)
    window.screen.hand("mousedown", 1)
    window.until("a hold on the lens", lambda now: now["holding"])
    steps = []
    for i in range(DRAG_S * STEPS_A_SECOND):
        angle = 2 * math.pi * i / STEPS_A_SECOND
        steps += ["mousemove", round(x + SWING_PX * math.sin(angle)),
                  round(y + SWING_PX * math.sin(angle / 3)), "sleep", f"{1 / STEPS_A_SECOND:.4f}"]
    window.screen.hand(*steps)
    window.screen.hand("mouseup", 1)
    return window.until("the hand to let go", lambda now: not now["holding"])


def median_answer_ms(window):
    """From a key that stops down or opens up to its first picture, as the window tells it."""
    answers_ms = []
    for key in KEYS:
        before_ms = window.now()["first_answer_ms"]
        window.changes(key)
        now = window.until("an answer to a key", lambda now: now["first_answer_ms"] != before_ms)
        answers_ms.append(now["first_answer_ms"])
    return statistics.median(answers_ms)


def median_newcomer_ms(window):
    """From the key that adds somebody to the first picture with them; each is taken out again."""
    newcomers_ms = []
    for _ in range(3):
        for key in ("Insert", "ctrl+z"):
            before_ms = window.now()["first_answer_ms"]
            window.changes(key)
            now = window.until("somebody to come or go",
                               lambda now: now["first_answer_ms"] != before_ms)
            if key == "Insert":
                newcomers_ms.append(now["first_answer_ms"])
    return statistics.median(newcomers_ms)


def rehearse_timed(program, scene, home):
    """Opens the scene in a window, waits until it is done, drags the camera, presses keys, lets
    somebody come and go, and closes it.

    home   a folder for the program's own files, kept from run to run as a user's is: there the
           driver finds the shaders that it compiled before
    """
    shutil.rmtree(os.path.join(home, "state"), ignore_errors=True)  # nothing to be offered again
    told = os.path.join(home, "places.json")
    if os.path.exists(told):
        os.remove(told)
    with tempfile.TemporaryDirectory() as folder:
        screen = Screen(folder, *SIZE)
        watch, window = Watch(told), None
        try:
            watch.start()
            window = Window(program, screen, home, scene, "--width", SIZE[0], "--height", SIZE[1])
            wait_for("finished pictures", lambda: window.now() and watch.settled_s, PATIENCE_S)
            now = swing(window)
            answer_ms = median_answer_ms(window)
            newcomer_ms = median_newcomer_ms(window)
        finally:
            watch.is_over = True
            if window is not None:
                window.kill()
            screen.close()
    return {"first_picture_s": watch.first_picture_s, "settled_s": watch.settled_s,
            "drag_pictures_per_s": now["drag_pictures_per_s"], "answer_ms": answer_ms,
            "newcomer_ms": newcomer_ms}
