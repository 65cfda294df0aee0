// One phrase: the score over its text, what every note does, and everything the author can do about it.

import { BarEditor } from "./vendor/editor.js";
import { $, Gone, Stale, ask, call, make, nonce, notice, onBeforeStep, onNews, putScore, say, told, windowName } from "./page.js";
import { drawLanes } from "./lanes.js";
import { Saving } from "./saving.js";
import { entryTools } from "./entry.js";
import { panels } from "./panels.js";
import { practicePlayer } from "./phrase_player.js";
import { proposals } from "./proposals.js";
import { recordings } from "./recording.js";
import { counted, signs, t } from "./words.js";

const query = new URLSearchParams(location.search);
const ref = { file: query.get("file") ?? "", index: Number(query.get("index") ?? 0) };
const LONG = ["changes", "line", "scales"];
const PLAIN = ["title", "key", "metre", "pickup", "tempo", "feel", "commentary"];
const SCORE_MM = 200;
const PX_A_MM = 5.4;
const MOST_PX_A_MM = 8.8;

/** What the screen knows; `seen` is the last answer that could be read, `chosen` the note that is looked at. */
export const state = { fields: {}, seen: null, chosen: -1, problem: null, scale: 1 };
const editors = {};
let saving;

// Reading and drawing what is typed: one request at a time, and then the newest text.

let looking = false;
let wanted = false;
const watchers = [];
export const onSeen = (watcher) => watchers.push(watcher);

async function look() {
  wanted = true;
  if (looking) return;
  looking = true;
  try {
    while (wanted) {
      wanted = false;
      const asked = structuredClone(saving.now);
      try {
        show(await call("look", { fields: asked, width: scoreWidth() }), asked);
      } catch (error) {
        if (error instanceof Stale) wanted = true;
        else {
          told(error);
          if (error instanceof Gone) {
            await new Promise((resolve) => setTimeout(resolve, 700));
            wanted = true;
          }
        }
      }
    }
  } finally {
    looking = false;
  }
}

const scoreWidth = () => Math.min(SCORE_MM, Math.max(70, ($("score").clientWidth || 1080) / PX_A_MM));

function show(answer, asked) {
  performance.mark("answered");
  if (answer.error) {
    state.problem = answer.error;
    showProblem(answer.error, asked);
    return;
  }
  state.problem = null;
  state.seen = answer;
  state.fields = asked;
  if (state.chosen >= answer.notes.length) state.chosen = -1;
  drawScore();
  showProblem(null);
  for (const watcher of watchers) watcher(answer);
  document.body.dataset.seen = String(Number(document.body.dataset.seen ?? 0) + 1);
}

let drawnAt = "";
function drawScore() {
  const { seen } = state;
  const place = $("score");
  for (const name of LONG) $(name).classList.remove("loose");
  const { rows, changed } = putScore(place, seen.score);
  const width = Math.min(place.clientWidth, seen.score.mm[0] * MOST_PX_A_MM);
  state.scale = width / seen.score.box[2];
  place.parentElement.style.setProperty("--score-width", `${width}px`);
  place.classList.remove("old");
  place.setAttribute("aria-label", t("phrase.score-says", { title: saving.now.title ?? "", bars: seen.bars, notes: seen.notes.length }));
  for (const index of changed) wireNotes(rows[index]);
  drawLanes(rows, seen, state.scale, { pick: choose, key: noteKey, chosen: Math.max(0, state.chosen) });
  paintChosen();
  const at = `${width} ${JSON.stringify(seen.score.lines.map((line) => line.edges))}`;
  if (at !== drawnAt) {
    drawnAt = at;
    layOutText();
  }
}

/** Put the bars of the text where the bars of the score stand. */
function layOutText() {
  const { seen, scale } = state;
  const place = editors.line.view.contentDOM;
  const bars = [];
  const room = place.clientWidth;
  for (const line of seen.score.lines) {
    line.edges.slice(1).forEach((edge, index) => {
      const start = line.edges[index] * scale;
      const end = index === line.edges.length - 2 ? room : edge * scale;
      bars.push([end - start - 0.5, 0]);
    });
  }
  const narrow = matchMedia("(max-width: 700px)").matches;
  editors.line.layOut(narrow ? [] : bars);
  const whole = seen.pickup ? bars.slice(1) : bars;
  if (seen.pickup && whole.length) whole[0] = [whole[0][0], bars[0][0]];
  editors.changes.layOut(narrow ? [] : whole);
  editors.scales.layOut(narrow ? [] : whole);
}

/** Where the text has other bars than the score that still stands, it runs on freely. */
function loosen() {
  const { seen } = state;
  const barsOf = (text) => text.trim().replace(/^\||\|$/g, "").split("|").length;
  for (const name of LONG) {
    const bars = seen ? seen.bars + (name === "line" && seen.pickup ? 1 : 0) : 0;
    const loose = barsOf(editors[name].text) !== bars && (name !== "scales" || editors[name].text.trim() !== "");
    $(name).classList.toggle("loose", loose);
    if (loose) editors[name].layOut([]);
    if (loose) drawnAt = "";
  }
}

function showProblem(error, asked = {}) {
  for (const name of LONG) editors[name].mark("problem", null);
  const place = $("problem");
  place.replaceChildren();
  $("score").classList.toggle("old", Boolean(error));
  for (const name of PLAIN) $(name).removeAttribute("aria-invalid");
  if (!error) return;
  loosen();
  const where = error.bar === null || error.bar === undefined ? "" : t("problem.where", { field: t(`field.${error.field || "line"}`), bar: error.bar, beat: error.beat || "1" });
  place.append(make("strong", { textContent: where }), " ", signs(error.message), " ", make("span", { textContent: signs(error.hint ?? "") }));
  if (LONG.includes(error.field) && editors[error.field].text === (asked[error.field] ?? "")) {
    editors[error.field].mark("problem", [error.start, Math.max(error.end, error.start + 1)]);
  } else if (PLAIN.includes(error.field)) $(error.field).setAttribute("aria-invalid", "true");
}

// A note chosen: on the staff, in the lane, in the text

const noteOf = (element) => {
  const found = element.closest?.('g[id^="sn"]');
  return found ? Number(found.id.slice(2).split("t")[0]) : -1;
};

function wireNotes(row) {
  const staff = row.querySelector(".staff");
  staff.onpointerdown = (event) => {
    const note = nearest(event, row);
    if (note < 0) return;
    choose(note);
    drag(event, note, staff);
  };
}

/** The note at or very near a pointer. */
function nearest(event, row) {
  const own = noteOf(event.target);
  if (own >= 0) return own;
  let found = -1;
  let least = 18;
  for (const head of row.querySelectorAll('g[id^="sn"]')) {
    const box = head.getBoundingClientRect();
    const away = Math.max(box.left - event.clientX, event.clientX - box.right, 0) + Math.max(box.top - event.clientY, event.clientY - box.bottom, 0);
    if (away < least) [least, found] = [away, noteOf(head)];
  }
  return found;
}

export function choose(note, { fromText = false, focus = false } = {}) {
  state.chosen = note;
  paintChosen();
  const span = note >= 0 && state.seen ? state.seen.spans[note] : null;
  editors.line.mark("chosen", span);
  if (!fromText && span) editors.line.select(span[0], span[1]);
  for (const watcher of choosers) watcher(note);
  if (focus) document.querySelector(`.reed[data-note="${note}"]`)?.focus();
}
const choosers = [];
export const onChosen = (watcher) => choosers.push(watcher);

export function paintChosen(kind = "chosen", note = state.chosen) {
  for (const one of document.querySelectorAll(`#score .${kind}`)) one.classList.remove(kind);
  if (note < 0) return;
  for (const one of $("score").querySelectorAll(`[id="sn${note}"], [id^="sn${note}t"]`)) one.classList.add(kind);
  const reed = $("score").querySelector(`.reed[data-note="${note}"]`);
  reed?.classList.add(kind);
  if (kind === "chosen") {
    for (const one of $("score").querySelectorAll(".reed")) {
      one.tabIndex = one === reed ? 0 : -1;
      one.setAttribute("aria-pressed", String(one === reed));
    }
  }
}

function textCursor(from, to, focused) {
  if (!focused || !state.seen || editors.line.text !== (state.fields.line ?? "")) return;
  const note = state.seen.spans.findIndex(([start, end]) => from <= end && to >= start);
  if (note !== state.chosen) choose(note, { fromText: true });
}

const STEPS = { ArrowUp: 1, ArrowDown: -1 };

function noteKey(event, note) {
  const last = state.seen.notes.length - 1;
  const go = { ArrowRight: Math.min(note + 1, last), ArrowLeft: Math.max(note - 1, 0), Home: 0, End: last }[event.key];
  if (go !== undefined) {
    event.preventDefault();
    choose(go, { focus: true });
  } else if (STEPS[event.key]) {
    event.preventDefault();
    if (event.altKey) moveNote(note, { half: STEPS[event.key] });
    else moveNote(note, { steps: STEPS[event.key] * (event.shiftKey ? 7 : 1) });
  } else if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    choose(note);
    editors.line.focus();
  }
}

// A note moved on the staff

const LETTERS = "cdefgab";
const NATURAL = [0, 2, 4, 5, 7, 9, 11];

/** Write another pitch for a note: some steps up by the scale at its place, or half steps. */
function moveNote(note, { steps = 0, half = 0 }) {
  const seen = state.seen;
  const { text } = editors.line;
  if (seen && text !== (state.fields.line ?? "")) {
    onSeenOnce(() => editors.line.text === text && moveNote(note, { steps, half })); // the answer is on its way
    return;
  }
  if (!seen) return;
  const midi = seen.midi[note];
  const spelling = seen.spelling[seen.over[note]] ?? seen.spelling[0];
  let name;
  let octave;
  if (half) {
    const to = midi + half;
    name = spelling[((to % 12) + 12) % 12];
    octave = octaveOf(to, name);
  } else {
    const written = seen.notes[note].pitch;
    const letter = LETTERS.indexOf(written[0].toLowerCase());
    const number = Number(written.match(/-?\d+$/)[0]);
    const place = letter + number * 7 + steps;
    octave = Math.floor(place / 7);
    const wantedLetter = LETTERS[((place % 7) + 7) % 7];
    name = (seen.inside[seen.over[note]] ?? []).find((one) => one[0] === wantedLetter) ?? wantedLetter;
  }
  writePitch(note, name, octave);
}

export const octaveOf = (midi, name) => {
  const alteration = [...name.slice(1)].reduce((sum, sign) => sum + (sign === "#" ? 1 : -1), 0);
  return Math.round((midi - NATURAL[LETTERS.indexOf(name[0])] - alteration) / 12) - 1;
};

/** Put a note's new name into the text; the next note gets its octave number where it loses it. */
function writePitch(note, name, octave) {
  const seen = state.seen;
  const text = editors.line.text;
  const [start, end] = seen.spans[note];
  const token = text.slice(start, end);
  const found = token.match(/^(\(*)([A-Ga-g](?:##|bb|[#b♯♭])?)(-?\d+)?(.*)$/s);
  if (!found) return;
  const changes = [[start, end, `${found[1]}${name}${octave}${found[4]}`]];
  const after = seen.spans[note + 1];
  if (after) {
    const next = text.slice(after[0], after[1]);
    const parts = next.match(/^(\(*)([A-Ga-g](?:##|bb|[#b♯♭])?)(-?\d+)?(.*)$/s);
    if (parts && parts[3] === undefined) {
      const number = seen.notes[note + 1].pitch.match(/-?\d+$/)[0];
      changes.push([after[0], after[1], `${parts[1]}${parts[2]}${number}${parts[4]}`]);
    }
  }
  editors.line.replace(...changes);
  onSeenOnce(() => {
    choose(note, { focus: document.activeElement?.classList.contains("reed") || document.activeElement === document.body });
    player.touch(note);
  });
}

let onceSeen = [];
const onSeenOnce = (todo) => onceSeen.push(todo);
onSeen(() => {
  const todo = onceSeen;
  onceSeen = [];
  for (const one of todo) one();
});

function drag(event, note, staff) {
  if (event.button > 0) return;
  const stepPx = 90 * state.scale; // half a staff space
  const startY = event.clientY;
  const heads = [...$("score").querySelectorAll(`[id="sn${note}"], [id^="sn${note}t"]`)];
  let steps = 0;
  staff.setPointerCapture(event.pointerId);
  const move = (moved) => {
    steps = -Math.round((moved.clientY - startY) / stepPx);
    for (const head of heads) head.setAttribute("transform", `translate(0 ${-steps * 90})`);
  };
  const stop = (stopped) => {
    staff.removeEventListener("pointermove", move);
    staff.removeEventListener("pointerup", stop);
    staff.removeEventListener("pointercancel", stop);
    for (const head of heads) head.removeAttribute("transform");
    if (steps && stopped.type === "pointerup") moveNote(note, { steps });
    else player.touch(note);
  };
  staff.addEventListener("pointermove", move);
  staff.addEventListener("pointerup", stop);
  staff.addEventListener("pointercancel", stop);
}

// Keys of the phrase, typed

/** Take a change from the page: save it, and look again. */
export function write(name, value) {
  saving.set(name, value);
  if (name in editors && editors[name].text !== value) editors[name].setText(value ?? "");
  look();
}

/** Write a text as a step of the author's that Ctrl+Z takes back in the field itself. */
export function writeStep(name, value) {
  if (name in editors) {
    editors[name].write(value);
    editors[name].focus();
  } else write(name, value);
}

export const fieldsNow = () => saving.now;
export const lineEditor = () => editors.line;
export { ref };

function plainValue(name, text) {
  if (name === "tempo") return text.trim() === "" ? null : Number.isInteger(Number(text)) ? Number(text) : text;
  return text.trim() === "" && name !== "commentary" ? null : text === "" ? null : text;
}

function showField(name, value) {
  if (name in editors) editors[name].setText(value ?? "");
  else if (PLAIN.includes(name)) {
    if (document.activeElement !== $(name) || $(name).value !== String(value ?? "")) $(name).value = value ?? "";
  }
  look();
}

let player;

async function begin() {
  const phrase = await ask("/api/phrase", ref);
  showPlace(phrase);
  saving = new Saving(ref, phrase.fields, { show: showField, kept: showKept, ask: askWhose });
  const keys = [{ key: "Escape", run: () => ($("score").querySelector('.reed[tabindex="0"]')?.focus(), true) }];
  for (const name of LONG) {
    editors[name] = new BarEditor($(name), {
      label: t(`field.${name}`),
      describedBy: "problem",
      nonce,
      keys,
      onText: (text) => {
        performance.mark("typed");
        saving.set(name, name === "scales" && !text.trim() ? null : text);
        look();
      },
      onCursor: name === "line" ? textCursor : undefined,
    });
    editors[name].setText(phrase.fields[name] ?? "");
  }
  for (const name of PLAIN) {
    $(name).value = phrase.fields[name] ?? "";
    $(name).placeholder = phrase.defaults[name] ?? "";
    $(name).addEventListener("input", () => write(name, plainValue(name, $(name).value)));
  }
  const earlier = saving.earlier();
  if (earlier) offerDraft(earlier);
  else showKept(true);
  player = practicePlayer();
  panels(phrase);
  entryTools(player);
  proposals(player);
  recordings(player, () => saving.save());
  onSeen(showFacts);
  onBeforeStep(() => saving.save());
  onNews(async (news) => {
    if (news.what === "back" && saving.failing) saving.soon();
    if ((news.what === "changed" && news.window !== windowName) || news.what === "back") {
      try {
        const found = await ask("/api/phrase", ref);
        showPlace(found);
        saving.take(found.fields);
      } catch (error) {
        if (news.what === "changed") told(error);
      }
    }
  });
  new ResizeObserver(resized).observe($("score"));
  await look();
}

let lastWidth = 0;
function resized() {
  const width = $("score").clientWidth;
  if (Math.abs(width - lastWidth) < 2) return;
  lastWidth = width;
  look();
}

function showPlace(phrase) {
  $("shared").hidden = !phrase.shared;
  $("shared").textContent = phrase.shared ? t("phrase.shared", { from: phrase.shared }) : "";
  $("book-link").textContent = phrase.book;
  $("number").textContent = t("phrase.number", { n: phrase.number });
  document.title = t("phrase.window", { title: phrase.title, app: t("app.name") });
  for (const [id, to] of [["before", phrase.before], ["after", phrase.after]]) {
    $(id).hidden = !to;
    if (to) {
      $(id).href = `/phrase?${new URLSearchParams({ file: to.file, index: to.index })}`;
      $(id).title = to.title;
    }
  }
  $("keys-link").href = `/keys?${new URLSearchParams(ref)}`;
}

function showFacts(seen) {
  const own = { key: signs(seen.key), metre: seen.metre.join("/"), tempo: seen.tempo, feel: seen.feel };
  for (const [name, value] of Object.entries(own)) $(name).placeholder = value;
  if (!document.body.dataset.seen) $("writing").open = seen.bars < 2; // a phrase that has hardly begun
  const names = [...new Set(seen.progressions.map((one) => one.name))].map(signs);
  $("heard-as").textContent = [signs(seen.key), seen.key_inferred ? t("phrase.inferred") : "", ...names, t("phrase.level", { n: seen.level })].filter(Boolean).join(" · ");
  const count = seen.findings.length;
  if (count) $("heard-as").append(" · ", make("a", { href: "#findings-title", className: "wrong", textContent: counted("row.findings", count) }));
}

function showKept(kept, away = false) {
  const text = kept ? t("kept.yes") : away ? t("kept.away") : t("kept.not-yet");
  if ($("kept").textContent !== text) $("kept").textContent = text;
  document.body.dataset.kept = String(kept);
}

function askWhose(name, there, decide) {
  const done = (mine) => () => {
    notice("");
    decide(mine);
  };
  const text = t("conflict.said", { field: t(`field.${name}`), theirs: typeof there === "string" ? there.slice(0, 120) : JSON.stringify(there) });
  notice(
    text,
    make("button", { type: "button", textContent: t("conflict.mine"), onclick: done(true) }),
    make("button", { type: "button", textContent: t("conflict.theirs"), onclick: done(false) }),
  );
}

function offerDraft(earlier) {
  notice(
    t("draft.said"),
    make("button", {
      type: "button",
      textContent: t("draft.take"),
      onclick: () => {
        notice("");
        saving.base = earlier.base;
        for (const [name, value] of Object.entries(earlier.now)) {
          saving.now[name] = value;
          showField(name, value);
        }
        saving.soon();
      },
    }),
    make("button", {
      type: "button",
      textContent: t("draft.leave"),
      onclick: () => {
        notice("");
        localStorage.removeItem(saving.draft);
      },
    }),
  );
}

begin().catch((error) => {
  told(error);
  say(error.message);
  // Another program may be writing the file just now: when it is done, the page begins again.
  onNews((news) => news.what === "changed" && location.reload());
});
