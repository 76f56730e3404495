// The desk's page: fetches a sheet, keeps its marks true while it is typed on, saves, explains.

import { ask, Refused, stages, tokenSought, tokenTaken } from "/static/asking.js";
import { Galley } from "/static/galley.js";

const QUIET = 12; // ms between two questions: keys that come together ask once
const SCRIPT = 180; // ms a script rests before it is vetted, which takes longer than marking
const AGAIN = 1500; // ms until a desk that did not answer is asked again
const tab = crypto.randomUUID();
const view = { what: "recipe", name: "", over: "", saved: "", revision: 0, readOnly: false, said: "", asked: 0 };
let galley = null;
let asking = null;
let due = 0;

const place = (id) => document.getElementById(id);

function said(words) {
  if (words && words !== view.said) place("said").textContent = words;
  view.said = words;
}

function state(words) {
  const shown = place("state");
  if (shown && shown.textContent !== words) shown.textContent = words;
}

/** A notice at the foot of the window, with what can be done about it. */
function notice(id, words, ways = []) {
  place(id)?.remove();
  const slip = document.createElement("div");
  slip.className = "slip";
  slip.id = id;
  slip.setAttribute("role", "alert");
  const told = document.createElement("p");
  told.textContent = words;
  slip.append(told);
  for (const [name, way] of ways) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "pencil";
    button.textContent = name;
    button.addEventListener("click", () => { slip.remove(); way(); });
    slip.append(button);
  }
  place("notices").append(slip);
}

const unnoticed = (id) => place(id)?.remove();

function failed(fault) {
  if (fault.name === "AbortError") return;
  if (!(fault instanceof Refused)) throw fault;
  if (fault.status === 0) {
    state("the desk does not answer; what you type stays on this page");
    clearTimeout(due);
    due = setTimeout(askMarks, AGAIN);
  } else if (fault.status === 401) {
    state("");
    notice("locked", "The desk has been started anew. Open the address it printed, in this tab: what you typed stays.");
  } else {
    notice("wrong", `${fault.told.message} ${fault.told.remedy || ""}`, [["Close", () => {}]]);
  }
}

function pieces(told) {
  for (const [id, html] of Object.entries(told || {})) {
    const piece = place(id);
    if (!piece || html === undefined || piece.told === html) continue;
    const inside = piece.contains(document.activeElement) && document.activeElement.dataset.why;
    piece.innerHTML = html;
    piece.told = html;
    if (inside) piece.querySelector(`[data-why="${CSS.escape(inside)}"]`)?.focus();
  }
}

function faultSign({ message, remedy }) {
  const sign = document.createElement("div");
  const words = document.createElement("p");
  sign.className = "mark fault";
  words.textContent = `${message} ${remedy}`;
  sign.append(words);
  return sign;
}

function inSettings(sign) {
  const margin = place("front-fault");
  if (!margin) return;
  if (sign && margin.textContent !== sign.textContent) place("settings").open = true;
  margin.replaceChildren(...(sign ? [sign] : []));
}

function applied(stage) {
  if (stage.revision !== view.revision) return;
  unnoticed("locked");
  if (stage.stage === "fault") {
    const sign = faultSign(stage);
    if (stage.line && stage.line <= galley.above) inSettings(sign);
    else galley.fault(stage.line, sign.outerHTML);
    said(sign.textContent);
    document.body.dataset.stage = "fault";
    return;
  }
  if (stage.stage === "read") inSettings(stage.trouble ? faultSign(stage.trouble) : null);
  if (stage.rows) galley.fill("read", stage.rows);
  if (stage.facts) galley.fill("facts", stage.facts);
  if (stage.right) galley.fill("right", stage.right);
  if (stage.ground !== undefined) ground(stage.ground);
  pieces({ axis: stage.axis, head: stage.head });
  pieces(stage.under);
  if (stage.stage === "beside") said(stage.said);
  if (stage.title) document.title = `${stage.title}: the desk`;
  if (stage.stage === "beside" || stage.stage === "valued") lineChoices();
  document.body.dataset.stage = stage.stage;
  document.body.dataset.revision = stage.revision;
}

/** The scale's rules run down behind all lines. */
function ground(html) {
  let drawn = place("ground");
  if (!drawn) {
    drawn = document.createElement("div");
    drawn.id = "ground";
    drawn.className = "drawn";
    place("lines").parentElement.append(drawn);
  }
  if (drawn.told !== html) { drawn.innerHTML = html; drawn.told = html; }
}

function lineChoices() {
  const select = place("swap-line");
  if (!select || select === document.activeElement) return;
  const lines = galley.rows
    .map((row, at) => ({ row, at: galley.above + at + 1 }))
    .filter(({ row }) => row.left.querySelector("[data-why^='mass:']"))
    .map(({ row, at }) => ({ at, words: row.line.replace(/^\s*[-*+•]\s+/, "") }));
  const told = JSON.stringify(lines);
  if (select.told === told) return;
  select.told = told;
  const chosen = select.selectedOptions[0]?.label;
  select.replaceChildren(...lines.map(({ words, at }) => new Option(words.length > 60 ? `${words.slice(0, 58)}…` : words, at)));
  const again = [...select.options].find((option) => option.label === chosen);
  if (again) again.selected = true;
}

function changed() {
  view.revision += 1;
  document.body.dataset.stage = "asked";
  stand();
  clearTimeout(due);
  const wait = view.what === "script" ? SCRIPT : performance.now() - view.asked < QUIET ? QUIET : 0;
  view.asked = performance.now();
  due = setTimeout(askMarks, wait);
}

function stand() {
  if (view.readOnly) state("the demo season, to look at");
  else state(galley.text === view.saved ? "saved" : "not saved; a draft is kept");
}

async function askMarks(fresh = false) {
  asking?.abort();
  asking = new AbortController();
  const told = { tab, revision: view.revision, name: view.name, text: galley.text, over: view.over, fresh: fresh === true };
  try {
    await stages(view.what === "script" ? "/vetted" : "/marks", told, asking.signal, applied);
    if (place("state").textContent.startsWith("the desk does not")) stand();
  } catch (fault) {
    failed(fault);
  }
}

async function save() {
  if (view.readOnly || !galley) return;
  const text = galley.text;
  try {
    const answer = await ask("/save", { what: view.what, name: view.name, text, over: view.over });
    view.over = (await answer.json()).over;
    view.saved = text;
    unnoticed("conflict");
    unnoticed("drafted");
    stand();
    said("Saved.");
  } catch (fault) {
    if (fault instanceof Refused && fault.status === 409) conflict(fault.document);
    else failed(fault);
  }
}

function conflict({ error, theirs, over }) {
  notice("conflict", `${error.message} ${error.remedy}`, [
    ["Take what is on disk", () => { view.over = over; view.saved = theirs; galley.change(theirs); stand(); }],
    ["Keep what stands here", () => { view.over = over; save(); }],
  ]);
}

/** Looks whether the file has changed on disk while one was elsewhere, in an editor or a terminal. */
async function lookAgain() {
  if (!galley || view.readOnly || document.visibilityState !== "visible") return;
  try {
    const told = await (await ask(`/leaf/${view.what}?name=${encodeURIComponent(view.name)}`)).json();
    const now = told.now ?? told.over;
    if (now === view.over || place("conflict")) return;
    if (galley.text !== view.saved) {
      conflict({ error: { message: "The file has changed on disk while you typed here.", remedy: "Take what is on disk, or keep what stands here." }, theirs: told.saved, over: now });
      return;
    }
    Object.assign(view, { over: now, saved: told.saved });
    galley.change(told.saved);
    stand();
    said("The file has changed on disk; this is how it stands now.");
  } catch { /* a desk that does not answer is told of when something is typed */ }
}

const trail = [];

/** Opens how a number came about; from there one goes on to what it rests on, and back. */
async function explain(key) {
  const dialog = place("why");
  try {
    const answer = await ask(`/why?name=${encodeURIComponent(view.name)}&key=${encodeURIComponent(key)}`);
    place("why-told").innerHTML = (await answer.json()).html;
    trail.push(key);
    place("why-back").hidden = trail.length < 2;
    if (!dialog.open) dialog.showModal();
    dialog.scrollTop = 0;
  } catch (fault) {
    failed(fault);
  }
}

function explainedBefore() {
  trail.pop();
  const key = trail.pop();
  if (key) explain(key);
}

async function swap(event) {
  event.preventDefault();
  const wrong = place("swap-wrong");
  wrong.textContent = "";
  try {
    const told = { name: view.name, text: galley.text, version: place("swap-name").value, line: Number(place("swap-line").value), instead: place("swap-instead").value };
    const answer = await ask("/version", told);
    galley.change((await answer.json()).text);
    place("swap-instead").value = "";
    place("swap-name").value = "";
    said("The version is written into the recipe.");
  } catch (fault) {
    if (fault instanceof Refused && fault.status === 422) wrong.textContent = `${fault.told.message} ${fault.told.remedy}`;
    else failed(fault);
  }
}

async function bring(file) {
  if (!file || view.readOnly || view.what !== "recipe") return;
  try {
    const answer = await ask("/bring-in", { file: file.name, content: await file.text() });
    galley.change((await answer.json()).text);
    said("The recipe has been brought in.");
  } catch (fault) {
    failed(fault);
  }
}

/** Puts the caret at the end of a line of the file; line nought stands for its settings. */
function goTo(line) {
  if (line <= galley.above && place("settings")) {
    place("settings").open = true;
    place("front").focus();
  } else galley.goTo(line - 1 - galley.above);
}

async function press() {
  const told = place("pressed");
  place("press").disabled = true;
  try {
    if (galley.text !== view.saved || view.over === "none") await save();
    if (galley.text !== view.saved) return;
    told.textContent = "pressing …";
    const { folder, files } = await (await ask("/press", { name: view.name })).json();
    told.textContent = `In ${folder}: ${files.join(", ")}.`;
  } catch (fault) {
    told.textContent = "";
    failed(fault);
  } finally {
    place("press").disabled = false;
  }
}

function wired() {
  galley = new Galley(place("text"), place("lines"), place("front"));
  place("text").addEventListener("input", changed);
  place("front")?.addEventListener("input", changed);
  place("front")?.addEventListener("named", ({ detail }) => {
    place("front-names").textContent = detail.length ? detail.join(", ") : "none yet";
  });
  place("settings")?.addEventListener("toggle", () => galley.fenced());
  place("save")?.addEventListener("click", save);
  place("keep-a-copy")?.addEventListener("click", async () => {
    try {
      const { folder } = await (await ask("/keep-a-copy", {})).json();
      await opened();
      notice("kept", `A copy is kept in ${folder}, beside where the desk was started. It is open now.`, [["Close", () => {}]]);
    } catch (fault) { failed(fault); }
  });
  place("press")?.addEventListener("click", press);
  place("swap")?.addEventListener("submit", swap);
  place("bring")?.addEventListener("change", (event) => bring(event.target.files[0]));
}

/** What a page that is no text shares with those that are. */
const shared = { ask, state, said, notice, failed, place, view };

async function opened() {
  const page = location.pathname.slice(1) || "recipe";
  const asked = new URLSearchParams(location.search).get("name");
  const answer = await ask(`/leaf/${page}${asked ? `?name=${encodeURIComponent(asked)}` : ""}`);
  const told = await answer.json();
  place("leaf").innerHTML = told.html;
  document.title = `${told.title}: the desk`;
  Object.assign(view, { what: page, name: told.name, over: told.over, saved: told.saved, readOnly: told.read_only, revision: 0 });
  place("evening")?.addEventListener("change", (event) => {
    location.search = `?name=${encodeURIComponent(event.target.value)}`;
  });
  if (page !== "recipe" && page !== "script") {
    const { laidOut } = await import(`/static/${page}.js`);
    await laidOut(told, shared);
    document.body.dataset.stage = "beside";
    return;
  }
  wired();
  galley.put(told.text);
  stand();
  if (told.drafted) {
    const behind = told.now !== told.over;
    notice("drafted", behind
      ? "A draft of yours stands here; the file has changed on disk since."
      : "A draft of yours that was not saved stands here.", [
      ["Go back to what is saved", async () => {
        await ask("/drop-draft", { what: view.what, name: view.name }).catch(failed);
        view.over = told.now;
        galley.change(told.saved);
      }],
      ["Go on with the draft", () => {}],
    ]);
  }
  await askMarks(true);
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-why]");
  if (button) explain(button.dataset.why);
  const step = event.target.closest("[data-ask-step]");
  if (step) location.assign(`/questions?${new URLSearchParams({ name: view.name, step: step.dataset.askStep })}`);
  if (view.readOnly && event.target.closest("[data-settled]")) {
    notice("looked-at", "This is the demo season, to look at. Keep a copy of it and settle that.", [["Close", () => {}]]);
  }
  const line = event.target.closest("[data-line]");
  if (line && galley) goTo(Number(line.dataset.line));
});
place("why").addEventListener("close", () => { trail.length = 0; });
place("why-back").addEventListener("click", explainedBefore);
document.addEventListener("keydown", (event) => {
  const figure = event.target.closest?.("span[data-why]");
  if (figure && (event.key === "Enter" || event.key === " ")) { event.preventDefault(); explain(figure.dataset.why); }
  if ((event.ctrlKey || event.metaKey) && event.key === "s") { event.preventDefault(); save(); }
});
addEventListener("focus", lookAgain);
document.addEventListener("visibilitychange", lookAgain);
addEventListener("dragover", (event) => { if (event.dataTransfer?.types.includes("Files")) event.preventDefault(); });
addEventListener("drop", (event) => {
  const file = event.dataTransfer?.files[0];
  if (file) { event.preventDefault(); bring(file); }
});
addEventListener("hashchange", () => {
  if (!tokenTaken()) return;
  unnoticed("locked");
  if (galley) askMarks(); else start();
});
addEventListener("beforeunload", (event) => {
  if (galley && place("state")?.textContent.startsWith("the desk does not")) event.preventDefault();
});

async function start() {
  tokenTaken();
  await tokenSought();
  try {
    await opened();
  } catch (fault) {
    if (!(fault instanceof Refused)) throw fault;
    place("waiting").textContent = fault.status === 401
      ? "Open the address that the desk printed when it was started: it holds the key to this page."
      : `${fault.told.message} ${fault.told.remedy || ""}`;
  }
}

start();
