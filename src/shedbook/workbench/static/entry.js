// Every way to write a line besides typing it. Each ends in the same text, at the cursor.

import { isSound } from "./microphone.js";
import { hearMidi } from "./midi.js";
import { PLAIN } from "./note_names.js";
import { $, bringIn, call, make, say, told } from "./page.js";
import { fieldsNow, lineEditor, octaveOf, onSeen, state } from "./phrase.js";
import { t } from "./words.js";

const VALUES = ["1/1", "1/2", "1/4.", "1/4", "1/8.", "1/8", "1/8t", "1/16"];
const LOWEST = 48;
const HIGHEST = 84;
const BLACK = new Set([1, 3, 6, 8, 10]);
/** Keys of the computer as those of a piano: the middle row white, the row above black, from C. */
const ROW = { KeyA: 0, KeyW: 1, KeyS: 2, KeyE: 3, KeyD: 4, KeyF: 5, KeyT: 6, KeyG: 7, KeyY: 8, KeyH: 9, KeyU: 10, KeyJ: 11, KeyK: 12, KeyO: 13, KeyL: 14, KeyP: 15 };

let value = "1/8";
let octave = 60;
let playing = null;

export function entryTools({ key: soundKey, player }) {
  const values = $("values");
  for (const one of VALUES) {
    const box = make("input", { type: "radio", name: "value", value: one, checked: one === value, onchange: () => (value = one) });
    values.append(make("label", { className: "check" }, box, " ", t(`value.${one}`)));
  }
  const enter = (midi, velocity = 90) => {
    soundKey(midi, velocity);
    if (!playing) writeNote(midi);
  };
  drawPiano(enter);
  $("entry-rest").addEventListener("click", () => writeToken("-"));
  $("entry-bar").addEventListener("click", () => lineEditor().insert(" | "));
  $("entry-back").addEventListener("click", takeBack);
  addEventListener("keydown", (event) => letters(event, enter));
  $("midi").addEventListener("click", () => connect(enter, player));
  $("in-time").addEventListener("click", () => inTime(player));
  $("file").addEventListener("change", () => takeFile($("file").files[0]));
  addEventListener("dragover", (event) => event.dataTransfer?.types.includes("Files") && event.preventDefault());
  addEventListener("drop", (event) => {
    if (!event.dataTransfer?.files.length) return;
    event.preventDefault();
    if (!isSound(event.dataTransfer.files[0])) takeFile(event.dataTransfer.files[0]); // a recording has its own place
  });
  onSeen(() => {
    const seen = state.seen;
    $("piano").dataset.key = seen.key;
  });
}

function drawPiano(enter) {
  const place = $("piano");
  for (let midi = LOWEST; midi <= HIGHEST; midi += 1) {
    const black = BLACK.has(midi % 12);
    const name = PLAIN[midi % 12];
    const button = make("button", {
      type: "button",
      className: black ? "black" : "white",
      textContent: midi % 12 === 0 ? `C${midi / 12 - 1}` : "",
      "aria-label": t("entry.key", { name: t(`key-name.${name}`), octave: Math.floor(midi / 12) - 1 }),
      onclick: () => enter(midi),
    });
    place.append(button);
  }
}

const octaveNumber = (text) => {
  let found = null;
  for (const word of text.matchAll(/(?:^|[\s|(:])[A-Ga-g](?:##|bb|[#b♯♭])?(-?\d+)/g)) found = word[1];
  return found === null ? null : Number(found);
};

const valueBefore = (text) => {
  const found = [...text.matchAll(/1\/\d+(?:\.+|t|\(\d+:\d+\))?(?:\+1\/\d+(?:\.+|t)?)*/g)];
  return found.length ? found.at(-1)[0] : null;
};

/** Which change the cursor stands under: by the bar, and for the first of its chords. */
function namesAt(cursor) {
  const seen = state.seen;
  if (!seen) return PLAIN;
  const bar = lineEditor().text.slice(0, cursor).split("|").length - (seen.pickup ? 1 : 0);
  let place = 0;
  seen.changes.forEach((one, index) => {
    if (one.bar <= Math.max(bar, 1)) place = index;
  });
  return seen.spelling[place] ?? PLAIN;
}

function writeNote(midi) {
  const editor = lineEditor();
  const before = editor.text.slice(0, editor.cursor);
  const name = namesAt(editor.cursor)[midi % 12];
  const number = octaveOf(midi, name);
  const inBar = before.slice(before.lastIndexOf("|") + 1);
  const held = octaveNumber(before);
  const numbered = held !== number || !/[A-Ga-g]/.test(inBar);
  writeToken(`${name}${numbered ? number : ""}`);
}

function writeToken(token) {
  const editor = lineEditor();
  const before = editor.text.slice(0, editor.cursor);
  const words = [];
  if (valueBefore(before) !== value) words.push(value);
  words.push(token);
  const gap = before && !/\s$/.test(before) ? " " : "";
  const after = editor.text.slice(editor.cursor);
  editor.insert(gap + words.join(" ") + (after && !/^\s/.test(after) ? " " : ""));
}

function takeBack() {
  const editor = lineEditor();
  const before = editor.text.slice(0, editor.cursor);
  const found = before.match(/\S+\s*$/);
  if (found) editor.replace([found.index, editor.cursor, ""]);
}

function letters(event, enter) {
  if (!$("letters").checked || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
  const where = event.target;
  if (where instanceof HTMLElement && where.closest("input:not([type=checkbox]):not([type=radio]), textarea, select")) return;
  if (event.code === "KeyZ" || event.code === "KeyX") {
    octave = Math.min(84, Math.max(36, octave + (event.code === "KeyZ" ? -12 : 12)));
    $("entry-said").textContent = t("entry.octave", { n: octave / 12 - 1 });
  } else if (event.code in ROW) enter(octave + ROW[event.code]);
  else return;
  event.preventDefault();
  event.stopPropagation();
}

// A keyboard by Web MIDI

async function connect(enter, player) {
  const hear = (key) => {
    if (playing) played(key, player);
    else if (key.on) enter(key.midi, key.velocity);
  };
  await hearMidi(hear, (text) => ($("entry-said").textContent = text));
}

function played({ on, midi, velocity, at }, player) {
  const seconds = (at - playing.start) / 1000;
  if (on) {
    player.touch(midi, { velocity });
    playing.down.set(midi, [seconds, velocity]);
  } else if (playing.down.has(midi)) {
    const [start, strength] = playing.down.get(midi);
    playing.down.delete(midi);
    playing.events.push([midi, strength, start, Math.max(seconds, start + 0.02)]);
  }
}

/** Play in time: one bar is counted, then what is played is kept until it is stopped. */
async function inTime(player) {
  const button = $("in-time");
  if (playing) {
    await stopInTime(button);
    return;
  }
  const tempo = Number(fieldsNow().tempo ?? $("tempo").placeholder ?? 120) || 120;
  const beats = state.seen?.metre[0] ?? 4;
  const beat = 60 / tempo;
  const context = player.audio();
  const start = performance.now() + 150 + beats * beat * 1000;
  playing = { events: [], down: new Map(), start, tempo };
  button.textContent = t("entry.in-time-stop");
  button.setAttribute("aria-pressed", "true");
  $("entry-said").textContent = t("entry.counting");
  let count = 0;
  const click = () => {
    if (!playing) return;
    if (context) player.touch(count % beats ? 76 : 84, { seconds: 0.04, velocity: 70 });
    $("entry-said").textContent = count < beats ? String(count + 1) : t("entry.playing", { bar: Math.floor(count / beats), beat: (count % beats) + 1 });
    count += 1;
    playing.timer = setTimeout(click, Math.max(0, playing.start + (count - beats) * beat * 1000 - performance.now()));
  };
  playing.timer = setTimeout(click, Math.max(0, start - beats * beat * 1000 - performance.now()));
}

async function stopInTime(button) {
  const done = playing;
  playing = null;
  clearTimeout(done.timer);
  button.textContent = t("entry.in-time");
  button.setAttribute("aria-pressed", "false");
  for (const [midi, [start, velocity]] of done.down) done.events.push([midi, velocity, start, (performance.now() - done.start) / 1000]);
  const events = done.events.filter((one) => one[2] > -0.15).map((one) => [one[0], one[1], Math.max(0, one[2]), Math.max(0.05, one[3])]);
  try {
    const { line } = await call("played", { events, tempo: done.tempo, fields: fieldsNow() });
    lineEditor().write(line);
    $("entry-said").textContent = t("entry.written");
  } catch (error) {
    $("entry-said").textContent = "";
    told(error);
  }
}

export async function takeFile(file) {
  if (!file) return;
  try {
    const found = await bringIn(file);
    const said = found.files.length === 1 ? t("file.one", { name: found.files[0] }) : t("file.many", { n: found.files.length });
    say([said, ...found.remarks].join(" "));
    if (found.files.length) location.href = `/phrase?${new URLSearchParams({ file: found.files[0], index: 0 })}`;
  } catch (error) {
    told(error);
  }
}
