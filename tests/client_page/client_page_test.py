#!/usr/bin/python3
"""The page for the client in a browser: what it shows, by hand and by keyboard, with and without scripts.

The page is drawn once, small and coarse, of people whose names are hostile; what it says is compared with what
`faces` says of the same scene. Debian's Chromium is driven through Debian's selenium; axe-core looks for whatever
would keep somebody out. Pictures of the screen are left in a folder: open them after a change of the page.
"""
import argparse
import base64
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

NAMES = ["Odile", "<script>alert(1)</script>", "\"><img src=x onerror='alert(2)'>", "</script>", "Bo & Söhne",
         "אביגיל בן־שחר"]
SCENE = """title = "</title><script>alert(3)</script> & friends"
[camera]
focal_length_mm = 85
f_number = 2.0
distance_m = 5.0
pixels = [1500, 1000]
[focus]
on = "Odile"
[[row]]
people = [NAMES_0]
[[row]]
back_m = 0.6
up_m = 0.3
people = [NAMES_1]
"""
APERTURES = [1.4, 2.0, 4.0, 11.0]
USES = ["phone", "album", "wall"]
PHONE, DESKTOP = (390, 844), (1440, 900)
ASKED = argparse.Namespace()  # What the command line says.


def toml_list(names):
    return ", ".join(json.dumps(name, ensure_ascii=False) for name in names)


class Page(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.scene = pathlib.Path(cls.folder.name, "group.toml")
        cls.scene.write_text(SCENE.replace("NAMES_0", toml_list(NAMES[:3])).replace("NAMES_1", toml_list(NAMES[3:])))
        cls.page = cls.make("group.html", APERTURES)
        options = Options()
        options.binary_location = "/usr/bin/chromium"
        for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                         "--force-device-scale-factor=1"):
            options.add_argument(argument)
        options.set_capability("goog:loggingPrefs", {"performance": "ALL", "browser": "ALL"})
        cls.browser = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
        cls.command("Network.enable")
        cls.command("Network.emulateNetworkConditions", offline=True, latency=0, downloadThroughput=0,
                    uploadThroughput=0)

    @classmethod
    def tearDownClass(cls):
        cls.browser.quit()
        cls.folder.cleanup()

    @classmethod
    def make(cls, name, apertures, *more):
        page = pathlib.Path(cls.folder.name, name)
        subprocess.run([ASKED.program, "client", cls.scene, "-o", page, "--language", "en", "--width", "420",
                        "--samples", "8", "--quality", "draft", "--apertures", ",".join(map(str, apertures)), *more],
                       check=True)
        return page

    @classmethod
    def command(cls, name, **arguments):
        return cls.browser.execute_cdp_cmd(name, arguments)

    def open(self, size=DESKTOP, is_dark=False, has_scripts=True, page=None):
        self.command("Emulation.setDeviceMetricsOverride", width=size[0], height=size[1], deviceScaleFactor=1,
                     mobile=size == PHONE)
        self.command("Emulation.setEmulatedMedia",
                     features=[{"name": "prefers-color-scheme", "value": "dark" if is_dark else "light"}])
        self.command("Emulation.setScriptExecutionDisabled", value=not has_scripts)
        self.browser.get((page or self.page).as_uri())
        self.command("Emulation.setScriptExecutionDisabled", value=False)

    def one(self, what):
        return self.browser.find_element(By.CSS_SELECTOR, what)

    def all(self, what):
        return self.browser.find_elements(By.CSS_SELECTOR, what)

    def shown(self, what):
        return [element for element in self.all(what) if element.is_displayed()]

    def ask(self, script, *arguments):
        return self.browser.execute_script("return " + script, *arguments)

    def slide_to(self, i, slider="#slider-1"):
        self.ask("(arguments[0].value = arguments[1], arguments[0].dispatchEvent(new Event('input')))",
                 self.one(slider), i)

    def press(self, *keys):
        ActionChains(self.browser).send_keys(*keys).perform()

    def focused(self):
        return self.browser.switch_to.active_element

    def shot(self, name):
        height = self.ask("document.documentElement.scrollHeight")
        width = self.ask("document.documentElement.clientWidth")
        picture = self.command("Page.captureScreenshot", captureBeyondViewport=True,
                               clip={"x": 0, "y": 0, "width": width, "height": height, "scale": 1})
        pathlib.Path(ASKED.shots, name + ".png").write_bytes(base64.b64decode(picture["data"]))

    def faces(self, f_number, use):
        ran = subprocess.run([ASKED.program, "faces", self.scene, "--format", "json", "--set",
                              f"camera.f_number={f_number}", "--set", f"viewing.use={use}"],
                             check=True, capture_output=True)
        return {face["name"]: face["verdict"] for face in json.loads(ran.stdout)["faces"]}

    def verdicts_on_page(self):
        """By name, picture by picture, as the table that is shown has them."""
        rows = {}
        for row in self.shown(".table tbody tr"):
            cells = row.find_elements(By.CSS_SELECTOR, "td")
            rows[row.find_element(By.CSS_SELECTOR, "bdi").text] = [cell.text for cell in cells]
        return rows

    def nothing_found(self, what):
        if not pathlib.Path(ASKED.axe).exists():
            self.skipTest("axe-core could not be installed")
        self.browser.execute_script(pathlib.Path(ASKED.axe).read_text())
        found = self.browser.execute_async_script(
            "const done = arguments[0]; axe.run().then((result) => done(result.violations.map("
            "(one) => [one.id, one.nodes.map((node) => node.html.slice(0, 150) + node.failureSummary)])));")
        self.assertEqual(found, [], what)

    def test_every_verdict_is_that_of_faces_in_every_size(self):
        self.open()
        for use, choice in zip(USES, self.all("fieldset input")):
            choice.click()
            on_page = self.verdicts_on_page()
            self.assertEqual(list(on_page), NAMES)
            for i, f_number in enumerate(APERTURES):
                faces = self.faces(f_number, use)
                self.assertEqual({name: on_page[name][i] for name in NAMES}, faces, (use, f_number))
                self.slide_to(i)
                sharp = sum(verdict in ("crisp", "fine") for verdict in faces.values())
                said = self.one(".said").text
                self.assertIn({0: "Nobody is sharp.", len(NAMES): "Everybody is"}.get(
                    sharp, f"Sharp: {sharp} of {len(NAMES)}."), said)
                self.assertIn(f"f/{f_number:g}", said)

    def test_names_are_text_and_nothing_of_them_runs(self):
        self.open()
        self.assertEqual(self.one("h1").text, "</title><script>alert(3)</script> & friends")
        self.assertEqual(self.browser.title, "</title><script>alert(3)</script> & friends")
        self.assertEqual(len(self.all("script")), 1)
        self.assertEqual(self.all("img[src=x]"), [])
        self.assertEqual(self.browser.get_log("browser"), [])

    def test_nothing_is_asked_of_the_network_and_the_page_refuses_to(self):
        self.browser.get_log("performance")
        self.open()
        self.browser.find_element(By.CSS_SELECTOR, "#beside").click()
        self.shown("th button")[0].click()
        asked = [entry["params"]["request"]["url"] for entry in
                 (json.loads(line["message"])["message"] for line in self.browser.get_log("performance"))
                 if entry["method"] == "Network.requestWillBeSent"]
        self.assertIn(self.page.as_uri(), asked)
        self.assertEqual([url[:80] for url in asked if not url.startswith(("file:", "data:"))], [])
        refused = self.browser.execute_async_script(
            "const done = arguments[0];"
            "document.addEventListener('securitypolicyviolation', (event) => done(event.effectiveDirective));"
            "document.body.append(Object.assign(new Image(), {src: 'http://127.0.0.1:9/dot.png'}));")
        self.assertEqual(refused, "img-src")
        self.browser.get_log("browser")

    def test_by_keyboard_alone(self):
        self.open()
        stops = []
        for _ in range(40):
            self.press(Keys.TAB)
            element = self.focused()
            if element.tag_name == "body" or element in stops:
                break
            stops.append(element)
            outline = self.ask("[arguments[0], arguments[0].nextElementSibling].map((one) => one && "
                               "getComputedStyle(one).outlineStyle)", element)
            self.assertIn("solid", outline, element.get_attribute("outerHTML")[:100])
        tags = [element.tag_name for element in stops]
        self.assertEqual(tags.count("button"), 1 + len(NAMES))  # side by side, and everybody
        self.assertEqual(stops[0].get_attribute("id"), "slider-1")

        stops[0].send_keys(Keys.HOME)
        texts = [self.one(".said").text]
        for f_number in APERTURES[1:]:
            stops[0].send_keys(Keys.ARROW_RIGHT)
            texts.append(self.one(".said").text)
            self.assertEqual(len(self.shown("figure")), 1)
            self.assertTrue(stops[0].get_attribute("aria-valuetext").startswith(f"f/{f_number:g}"))
        self.assertEqual(len(set(texts)), len(APERTURES))

        name = self.shown("th button")[1]
        name.send_keys(Keys.ENTER)
        self.assertEqual(self.focused().get_attribute("id"), "closer")
        self.assertEqual(self.one(".closer bdi").text, NAMES[1])
        self.assertEqual([tile.text.split("\n")[-1] for tile in self.all(".closer li")],
                         self.verdicts_on_page()[NAMES[1]])
        self.press(Keys.ESCAPE)
        self.assertFalse(self.one(".closer").is_displayed())
        self.assertEqual(self.focused(), name)

    def test_a_tap_on_a_face_is_a_closer_look_at_it_in_every_picture(self):
        for size in PHONE, DESKTOP:
            self.open(size)
            for face, name in enumerate(NAMES):
                image = self.shown("figure .whole img")[0]
                left, top, width, height = map(float, self.shown("figure")[0].get_attribute(
                    "data-places").split("|")[face].split())
                self.browser.execute_script("scrollTo(0, 0)")
                ActionChains(self.browser).move_to_element_with_offset(
                    image, round(image.size["width"] * ((left + width / 2) / 100 - 0.5)),
                    round(image.size["height"] * ((top + height / 2) / 100 - 0.5))).click().perform()
                self.assertEqual(self.one(".closer bdi").text, name)
                tiles = self.all(".closer li img")
                self.assertEqual(len(tiles), len(APERTURES))
                self.assertEqual(self.ask("arguments[0].naturalWidth === arguments[0].width", tiles[0]), True)

    def test_another_print_is_judged_otherwise(self):
        self.open()
        self.slide_to(0)
        said = set()
        for choice in self.all("fieldset input"):
            choice.click()
            said.add(self.one(".said").text)
        self.assertEqual(len(said), len(USES))

    def test_two_pictures_side_by_side(self):
        for size in PHONE, DESKTOP:
            self.open(size)
            self.one("#beside").click()
            self.assertEqual(self.one("#beside").get_attribute("aria-pressed"), "true")
            first, second = self.shown("figure .whole img")
            self.assertNotEqual(first.get_attribute("alt"), second.get_attribute("alt"))
            beside = first.rect["y"] == second.rect["y"] and first.rect["x"] < second.rect["x"]
            below = first.rect["x"] == second.rect["x"] and first.rect["y"] < second.rect["y"]
            self.assertTrue(beside if size == DESKTOP else below)
            self.slide_to(2, "#slider-2")
            self.assertIn(f"f/{APERTURES[2]:g}", self.shown(".said")[1].text)
            self.shot(f"two-{size[0]}")
            self.one("#beside").click()
            self.assertEqual(len(self.shown("figure")), 1)

    def test_an_upright_picture_has_its_words_beside_it_where_there_is_room(self):
        page = self.make("upright.html", [2.0, 4.0, 8.0], "--set", "camera.orientation=portrait")
        for size in PHONE, DESKTOP:
            self.open(size, page=page)
            picture, slider = self.shown("figure .whole img")[0].rect, self.one("#slider-1").rect
            if size == DESKTOP:
                self.assertGreater(slider["x"], picture["x"] + picture["width"])
            else:
                self.assertGreater(slider["y"], picture["y"] + picture["height"])
            self.shown("th button")[0].click()
            self.nothing_found((size, "upright"))
            self.assertLessEqual(self.ask("document.documentElement.scrollWidth"), size[0])
            self.shot(f"upright-{size[0]}")

    def test_nothing_is_wider_than_the_screen(self):
        for size in PHONE, (320, 568), DESKTOP:
            for has_scripts in True, False:
                self.open(size, has_scripts=has_scripts)
                self.assertLessEqual(self.ask("document.documentElement.scrollWidth"), size[0])

    def test_whoever_cannot_see_or_point_finds_everything(self):
        for size in PHONE, DESKTOP:
            for is_dark in False, True:
                self.open(size, is_dark)
                shades = "dark" if is_dark else "light"
                for end in 0, len(APERTURES) - 1:
                    self.slide_to(end)
                    self.nothing_found((size, shades, end))
                self.shown("th button")[-1].click()
                self.shot(f"page-{shades}-{size[0]}")
                self.one("#beside").click()
                self.nothing_found((size, shades, "closer look, side by side"))

    def test_without_scripts_it_is_a_sequence_of_captioned_pictures(self):
        self.open()
        with_scripts = []
        for i in range(len(APERTURES)):
            self.slide_to(i)
            with_scripts.append(self.one(".said").text.split())
        for is_dark in False, True:
            self.open(PHONE, is_dark, has_scripts=False)
            self.assertEqual([caption.text.split() for caption in self.shown("figcaption")], with_scripts)
            self.assertEqual(len(self.shown("figure img")), len(APERTURES))
            self.assertEqual(len(self.shown("table")), len(USES))
            self.assertEqual(self.shown("button, input"), [])
            self.nothing_found(("without scripts", is_dark))
            self.shot(f"without-scripts-{'dark' if is_dark else 'light'}")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Tests the page for the client in a browser.")
    parser.add_argument("--program", required=True, help="backrow")
    parser.add_argument("--axe", required=True, help="axe.min.js of axe-core")
    parser.add_argument("--shots", required=True, help="folder for pictures of the screen")
    ASKED, rest = parser.parse_known_args()
    pathlib.Path(ASKED.shots).mkdir(parents=True, exist_ok=True)
    unittest.main(argv=sys.argv[:1] + rest)
