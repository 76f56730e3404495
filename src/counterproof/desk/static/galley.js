// The text in the middle and the marks beside it, each row as tall as its line of text.
//
// The text is one plain text area, so that caret, selection, undo and input methods stay the
// browser's own. Behind it lie rows that hold the same words in the same type: they wrap as the
// text does, and so the margins stand beside their lines without anything being measured.

const APART = 3; // px between two notes
const LEAD = 30; // px, a line of text with its lead

function element(name, style) {
  const made = document.createElement(name);
  made.className = style;
  return made;
}

export class Galley {
  constructor(area, place, front = null) {
    this.area = area;
    this.front = front;
    this.fence = null;
    this.place = place;
    this.rows = [];
    this.lines = [];
    this.told = [];
    this.current = -1;
    this.asked = 0;
    this.verdicts = place.closest(".words") !== null;
    this.leaders = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    this.leaders.setAttribute("class", "leaders");
    this.leaders.setAttribute("aria-hidden", "true");
    place.parentElement.append(this.leaders);
    area.addEventListener("input", () => this.follow());
    front?.addEventListener("input", () => this.fenced());
    document.addEventListener("selectionchange", () => this.mark());
    area.addEventListener("focus", () => this.mark());
    place.addEventListener("click", (event) => this.pressed(event));
    place.addEventListener("focusin", (event) => this.point(this.rowOf(event.target)));
    new ResizeObserver(() => this.settleSoon()).observe(place.parentElement);
    document.fonts.addEventListener("loadingdone", () => this.settleSoon());
  }

  /** The whole file: its settings, where it has any, and the text below them. */
  get text() { return this.before + this.area.value; }

  get before() {
    if (!this.front || (!this.front.value.trim() && !this.fence)) return "";
    const [open, close] = this.fence || ["---\n", "---\n\n"];
    const told = this.front.value;
    return open + told + (told && !told.endsWith("\n") ? "\n" : "") + close;
  }

  /** Lines of the file that stand above the text. */
  get above() { return this.before.split("\n").length - 1; }

  /** Parts a file into its settings and the text below them. */
  parted(text) {
    const fence = this.front && text.match(/^(\s*---[ \t]*\n)([\s\S]*?)^((?:---|\.\.\.)[ \t]*\n\s*?(?:\n|(?=\S)|$))/m);
    if (!fence || fence.index !== 0) return [null, "", text];
    return [[fence[1], fence[3]], fence[2], text.slice(fence[0].length)];
  }

  /** Names what the settings say, so that they can stay folded. */
  fenced() {
    if (!this.front) return;
    const keys = [...this.front.value.matchAll(/^([a-z_]+):/gm)].map((key) => key[1].replaceAll("_", " "));
    this.front.dispatchEvent(new CustomEvent("named", { bubbles: true, detail: keys }));
    this.front.style.height = "auto";
    this.front.style.height = `${this.front.scrollHeight}px`;
  }

  /** Puts a whole text in. */
  put(text) {
    const [fence, front, body] = this.parted(text);
    this.fence = fence;
    if (this.front) this.front.value = front;
    this.area.value = body;
    this.fenced();
    this.follow();
  }

  /** Changes only what differs, so that undo, caret and scroll stay where they are. */
  change(text) {
    const [fence, front, body] = this.parted(text);
    this.fence = fence;
    if (this.front && this.front.value !== front) this.typed(front, this.front);
    if (this.area.value !== body) this.typed(body);
  }

  /** Types what differs. Where it cannot be typed, because the place is folded, it is put in. */
  typed(text, area = this.area) {
    const old = area.value;
    let head = 0;
    while (head < old.length && head < text.length && old[head] === text[head]) head += 1;
    let tail = 0;
    while (tail < old.length - head && tail < text.length - head
      && old[old.length - 1 - tail] === text[text.length - 1 - tail]) tail += 1;
    area.focus({ preventScroll: true });
    const put = text.slice(head, text.length - tail);
    if (document.activeElement === area) {
      area.setSelectionRange(head, old.length - tail);
      if (put ? document.execCommand("insertText", false, put) : document.execCommand("delete")) return;
    }
    area.setRangeText(put, head, old.length - tail, "end");
    area.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** Lets the rows follow the text: the same lines keep their marks, wherever they moved to. */
  follow() {
    const lines = this.area.value.split("\n");
    const old = this.lines;
    let head = 0;
    while (head < old.length && head < lines.length && old[head] === lines[head]) head += 1;
    let tail = 0;
    while (tail < old.length - head && tail < lines.length - head
      && old[old.length - 1 - tail] === lines[lines.length - 1 - tail]) tail += 1;
    const gone = old.length - head - tail;
    const come = lines.length - head - tail;
    for (let at = 0; at < Math.min(gone, come); at += 1) {
      this.write(this.rows[head + at], lines[head + at]);
      this.rows[head + at].node.classList.add("pending");
    }
    if (gone > come) {
      for (const row of this.rows.splice(head + come, gone - come)) row.node.remove();
    } else if (come > gone) {
      const made = lines.slice(head + gone, head + come).map((line) => this.row(line));
      const before = this.rows[head + gone];
      const all = document.createDocumentFragment();
      for (const row of made) all.append(row.node);
      this.place.insertBefore(all, before ? before.node : null);
      this.rows.splice(head + gone, 0, ...made);
    }
    this.lines = lines;
    this.mark();
    this.settleSoon();
  }

  row(line) {
    const node = element("div", "line-row");
    const left = element("div", "left");
    const read = element("div", "read");
    const facts = element("div", "facts");
    left.append(read, facts);
    const mirror = element("div", "mirror");
    mirror.setAttribute("aria-hidden", "true");
    mirror.dir = "auto";
    const text = element("span", "text");
    mirror.append(text);
    const right = element("div", "right");
    node.append(left, mirror, right);
    const row = { node, left, read, facts, text, right, html: {}, shift: { left: 0, right: 0 } };
    this.write(row, line);
    return row;
  }

  write(row, line) {
    row.text.textContent = line;
    row.node.classList.toggle("blank", !line.trim());
  }

  /** Puts pieces beside their lines; `part` is read, facts or right, lines count from one. */
  fill(part, pieces) {
    let changed = false;
    const above = this.above;
    for (const [at, row] of this.rows.entries()) {
      const html = pieces[above + at + 1] || "";
      if (row.html[part] !== html) {
        const inside = row[part].contains(document.activeElement);
        row[part].innerHTML = html;
        row.html[part] = html;
        changed = true;
        if (inside) this.area.focus({ preventScroll: true });
      }
      row.node.classList.remove("pending");
      const told = Boolean(row.html.read || row.html.facts || row.html.right);
      row.node.classList.toggle("told", told);
      row.node.classList.toggle("valued", Boolean(row.html.right));
      row.node.classList.toggle("pressing", Boolean(row.left.querySelector(".mark.doubt, .mark.fault")));
      if (told) {
        row.node.setAttribute("role", "group");
        row.node.setAttribute("aria-label", `Marks beside: ${this.lines[at].trim()}`);
      } else {
        row.node.removeAttribute("role");
        row.node.removeAttribute("aria-label");
      }
      row.line = this.lines[at];
    }
    if (changed) this.settleSoon();
  }

  fault(line, html) {
    const at = Math.min(Math.max((line || 1) - 1 - this.above, 0), this.rows.length - 1);
    const row = this.rows[at];
    if (!row) return;
    row.read.innerHTML = html;
    row.html.read = html;
    row.node.classList.add("told", "pressing");
    this.settleSoon();
  }

  rowOf(node) {
    return this.rows.findIndex((row) => row.node.contains(node));
  }

  /** The line the caret stands in shows all its marks. */
  mark() {
    if (document.activeElement !== this.area) return;
    let at = 0;
    const end = this.area.selectionStart;
    for (let place = this.area.value.indexOf("\n"); place >= 0 && place < end; place = this.area.value.indexOf("\n", place + 1)) at += 1;
    this.point(at);
  }

  point(at) {
    if (at === this.current || at < 0) return;
    this.rows[this.current]?.node.classList.remove("current");
    this.rows[at]?.node.classList.add("current");
    this.current = at;
    this.settleSoon();
  }

  pressed(event) {
    const choice = event.target.closest("[data-settled]");
    const at = this.rowOf(event.target);
    if (at < 0) return;
    if (choice) this.settled(at, choice.dataset.settled);
    else if (event.target.closest(".left") && !event.target.closest("button, a")) this.point(at);
  }

  /** Writes a choice into its line, as typing would, so that it can be undone. */
  settled(at, words) {
    if (this.rows[at].line !== this.lines[at] || this.area.readOnly) return;
    const start = this.lines.slice(0, at).reduce((sum, line) => sum + line.length + 1, 0);
    const text = this.area.value;
    this.typed(text.slice(0, start) + words + text.slice(start + this.lines[at].length));
    const end = start + words.length;
    this.area.setSelectionRange(end, end);
  }

  /** Puts the caret at the end of a line, and the line into sight. */
  goTo(at) {
    const end = this.lines.slice(0, at + 1).reduce((sum, line) => sum + line.length + 1, -1);
    this.area.focus({ preventScroll: true });
    this.area.setSelectionRange(end, end);
    this.rows[at]?.node.scrollIntoView({ block: "center" });
  }

  settleSoon() {
    if (this.waiting) return;
    this.waiting = requestAnimationFrame(() => { this.waiting = 0; this.settle(); });
  }

  /** Sets the notes below each other where they would overlap, and leads each back to its line. */
  settle() {
    const narrow = matchMedia("(max-width:46rem)").matches;
    const told = this.rows.filter((row) => row.html.read || row.html.facts || row.html.right);
    const sizes = told.map((row) => ({
      row,
      top: row.node.offsetTop,
      left: row.left.offsetHeight,
      right: this.verdicts ? row.right.offsetHeight : 0,
      sign: row.left.querySelector(".mark.doubt, .mark.fault")?.offsetTop || 0,
    }));
    const free = { left: -Infinity, right: -Infinity };
    let lowest = 0;
    const strokes = [];
    for (const { row, top, left, right, sign } of sizes) {
      for (const [side, height] of [["left", left], ["right", right]]) {
        if (side === "right" && !this.verdicts) continue;
        // What stands beside the caret is long and grows both ways, so that others move less.
        const rise = row === this.rows[this.current] ? Math.max(0, height - LEAD) / 2 : 0;
        const shift = narrow ? 0 : Math.max(top - rise, free[side]) - top;
        if (shift !== (row.shift[side] || 0)) {
          row.shift[side] = shift;
          row[side].style.transform = shift ? `translateY(${shift}px)` : "";
        }
        if (height) free[side] = top + shift + height + APART;
        lowest = Math.max(lowest, top + shift + height);
      }
      if (!narrow && left) {
        const is = (name) => row.node.classList.contains(name);
        strokes.push({ from: top, to: top + row.shift.left + sign, height: left, pressing: is("pressing"), current: is("current") });
      }
    }
    const inside = this.place.offsetHeight;
    this.place.parentElement.style.paddingBottom = narrow || lowest <= inside ? "" : `${lowest - inside + 8}px`;
    this.lead(strokes);
  }

  lead(strokes) {
    const drawn = strokes.filter((one) => one.pressing || one.current || Math.abs(one.to - one.from) > 3);
    const wide = this.leaders.clientWidth;
    this.leaders.replaceChildren(...drawn.map(({ from, to, height, pressing, current }) => {
      const line = document.createElementNS("http://www.w3.org/2000/svg", "path");
      const y1 = from + 17;
      const y2 = current && !pressing ? Math.min(Math.max(y1, to + 14), to + Math.max(height, 18) - 4) : to + 14;
      const start = pressing ? 28 : 9;
      line.setAttribute("d", `M${wide - 6} ${y1} H${wide - 14} L${start + 8} ${y2} H${start}`);
      line.setAttribute("class", pressing ? "pressing" : current ? "current" : "plain");
      return line;
    }));
  }
}
