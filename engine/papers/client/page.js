"use strict";

// Turns the sequence of captioned pictures into one that is leafed through. Everything that is said
// stands in the page already; this shows and hides it, and copies it where it is read.
(() => {
    const one = (root, what) => root.querySelector(what);
    const all = (root, what) => Array.from(root.querySelectorAll(what));
    const reveal = (elements) => elements.forEach((element) => element.removeAttribute("hidden"));

    const figures = all(document, "figure");
    const radios = all(document, "input[name=way]");
    const tables = all(document, ".table");
    const closer = one(document, ".closer");
    const beside = one(document, "#beside");
    const places = figures.map((figure) => figure.dataset.places.split("|").map(
        (place) => (place === "-" ? null : place.split(" ").map(Number))));
    let way = radios.find((radio) => radio.checked).value;
    let lookedAt = null;  // The number of a face.
    let opener = null;    // What had the focus before the closer look.

    const tableNow = () => tables.find((table) => table.dataset.way === way);
    const rowOf = (face) => one(tableNow(), `tr[data-face="${face}"]`);
    const nameOf = (face) => one(rowOf(face), "bdi").textContent;

    // A frame on the picture round one face.
    const frameFace = (mark, at) => {
        mark.hidden = !at;
        if (at)
            ["left", "top", "width", "height"].forEach((side, i) => { mark.style[side] = `${at[i]}%`; });
    };

    class Pane {
        constructor(root, leaves) {
            this.root = root;
            this.leaves = leaves;
            this.slider = one(root, "input");
            this.said = one(root, ".said");
            this.marks = leaves.map((leaf) => this.prepare(leaf));
            this.slider.addEventListener("input", () => this.show(Number(this.slider.value)));
            all(root, ".slide li").forEach((tick, i) => tick.addEventListener("click", () => this.show(i)));
        }

        prepare(leaf) {
            const picture = one(leaf, ".whole");
            const [mark, hint] = ["mark", "hint"].map((name) => {
                const element = document.createElement("span");
                element.className = name;
                element.hidden = true;
                picture.append(element);
                return element;
            });
            if (closer) {
                picture.addEventListener("click", (event) => {
                    const face = this.faceUnder(event);
                    if (face !== null)
                        look(face);
                });
                picture.addEventListener("pointermove", (event) => {
                    const face = event.pointerType === "mouse" ? this.faceUnder(event) : null;
                    frameFace(hint, face === null ? null : places[this.now][face]);
                    picture.classList.toggle("over", face !== null);
                });
                picture.addEventListener("pointerleave", () => frameFace(hint, null));
            }
            return mark;
        }

        // The face nearest to the pointer; a finger may be off by its own width.
        faceUnder(event) {
            const finger = 24;
            const area = one(this.leaves[this.now], "img").getBoundingClientRect();
            let nearest = null;
            let nearestOff = finger;
            places[this.now].forEach((at, face) => {
                if (!at)
                    return;
                const off = (pointer, begin, size, share, length) => Math.max(
                    0, Math.abs(pointer - begin - size * (share + length / 2) / 100) - size * length / 200);
                const away = Math.hypot(off(event.clientX, area.left, area.width, at[0], at[2]),
                                        off(event.clientY, area.top, area.height, at[1], at[3]));
                if (away < nearestOff || (away === 0 && nearestOff === 0 && at[2] < places[this.now][nearest][2])) {
                    nearest = face;
                    nearestOff = away;
                }
            });
            return nearest;
        }

        show(now) {
            this.now = now;
            this.leaves.forEach((leaf, i) => leaf.classList.toggle("now", i === now));
            const caption = one(this.leaves[now], "figcaption");
            const label = one(caption, "h3").textContent;
            this.slider.value = now;
            this.slider.setAttribute("aria-valuetext", label);
            all(this.root, ".slide li").forEach((tick, i) => tick.classList.toggle("now", i === now));
            const setting = document.createElement("strong");
            setting.textContent = label;
            const sentence = document.createElement("p");
            sentence.append(setting, " ", one(caption, `p[data-way="${way}"]`).textContent);
            this.said.replaceChildren(sentence);
            this.frame();
            if (this === panes[0])
                markColumn(now);
        }

        frame() {
            this.marks.forEach((mark, i) => frameFace(mark, lookedAt === null ? null : places[i][lookedAt]));
        }
    }

    const markColumn = (now) => {
        tables.forEach((table) => all(table, "tr").forEach((row) => Array.from(row.children).forEach(
            (cell, i) => cell.classList.toggle("now", i === now + 1))));
        if (closer)
            all(closer, "li").forEach((tile, i) => {
                tile.classList.toggle("now", i === now);
                if (i === now && !closer.hidden) {
                    const strip = one(closer, "div");
                    strip.scrollLeft = tile.offsetLeft - strip.offsetLeft - (strip.clientWidth - tile.offsetWidth) / 2;
                }
            });
    };

    // One tile of the sheet of faces that comes with each picture.
    const tileOf = (figure, face, label) => {
        const columns = Number(closer.dataset.columns);
        const [width, height] = closer.dataset.tile.split(" ").map(Number);
        const tile = document.createElement("div");
        tile.className = "tile";
        tile.style.width = `${width}px`;
        tile.style.height = `${height}px`;
        const sheet = one(figure, ".faces").cloneNode(true);
        sheet.removeAttribute("hidden");
        const image = one(sheet, "img");
        image.alt = label;
        image.style.left = `${-width * (face % columns)}px`;
        image.style.top = `${-height * Math.floor(face / columns)}px`;
        tile.append(sheet);
        return tile;
    };

    const fillCloser = () => {
        if (lookedAt === null)
            return;
        const cells = all(rowOf(lookedAt), "td");
        one(closer, "h2 bdi").textContent = nameOf(lookedAt);
        one(closer, "ol").replaceChildren(...figures.map((figure, i) => {
            const label = one(figure, "h3").textContent;
            const item = document.createElement("li");
            const caption = document.createElement("p");
            const verdict = document.createElement("b");
            verdict.textContent = cells[i].textContent;
            caption.append(label, document.createElement("br"), verdict);
            item.append(tileOf(figure, lookedAt, `${nameOf(lookedAt)}, ${label}`), caption);
            return item;
        }));
        markColumn(panes[0].now);
    };

    const look = (face) => {
        opener = lookedAt === null ? document.activeElement : opener;
        lookedAt = face;
        closer.hidden = false;
        fillCloser();
        panes.forEach((pane) => pane.frame());
        one(closer, "h2").focus({preventScroll: true});
        closer.scrollIntoView({block: "nearest"});
    };

    const lookNoMore = () => {
        lookedAt = null;
        closer.hidden = true;
        panes.forEach((pane) => pane.frame());
        if (opener && opener !== document.body)
            opener.focus();
        opener = null;
    };

    const chooseWay = (chosen) => {
        way = chosen;
        tables.forEach((table) => { table.hidden = table.dataset.way !== way; });
        panes.filter((pane) => !pane.root.hidden).forEach((pane) => pane.show(pane.now));
        if (closer)
            fillCloser();
    };

    const putBeside = (isBeside) => {
        const [first, second] = panes;
        beside.setAttribute("aria-pressed", String(isBeside));
        second.root.hidden = !isBeside;
        second.root.closest("main").classList.toggle("two", isBeside);
        if (isBeside)
            second.show(first.now === figures.length - 1 ? 0 : figures.length - 1);
    };

    const roots = all(document, ".pane");
    const copies = figures.map((figure) => figure.cloneNode(true));
    const stack = one(roots[1], ".stack");
    copies.forEach((copy) => {
        // Its sheets of faces are those of the first.
        const sheet = one(copy, ".faces");
        if (sheet)
            sheet.remove();
        stack.append(copy);
    });
    const panes = [];
    panes.push(new Pane(roots[0], figures), new Pane(roots[1], copies));

    // Names become buttons where there is more of them to see.
    if (closer)
        tables.forEach((table) => all(table, "tr[data-face]").forEach((row) => {
            const button = document.createElement("button");
            const head = one(row, "th");
            button.type = "button";
            button.append(...head.childNodes);
            button.addEventListener("click", () => look(Number(row.dataset.face)));
            head.append(button);
        }));
    if (closer) {
        one(closer, "button").addEventListener("click", lookNoMore);
        closer.addEventListener("keydown", (event) => {
            if (event.key === "Escape")
                lookNoMore();
        });
    }
    radios.forEach((radio) => radio.addEventListener("change", () => chooseWay(radio.value)));
    beside.addEventListener("click", () => putBeside(beside.getAttribute("aria-pressed") !== "true"));

    document.documentElement.classList.add("leafing");
    reveal(all(document, ".slide, .said, .controls"));
    panes[0].show(Math.max(0, figures.findIndex((figure) => "planned" in figure.dataset)));
    chooseWay(way);
})();
