// The book: its phrases with a small score each, found, moved, added and set aside.

import { $, ask, bringIn, call, make, onNews, putScore, say, sound, told, windowName } from "./page.js";
import { readNotes } from "./note_names.js";
import { playedSearch } from "./played_search.js";
import { Player } from "./player.js";
import { counted, signs, t } from "./words.js";

let book = null;
let shown = [];
let musical = null; // keys of the phrases that the last search by notes or progression found; null without one
const facts = new Map();
const keyOf = (one) => `${one.file} ${one.index}`;

async function load() {
  book = await ask("/api/book");
  $("book-title").textContent = book.title;
  document.title = t("phrase.window", { title: book.title, app: t("app.name") });
  $("book-said").textContent = counted("book.holds", book.phrases.length);
  $("undo-step").disabled = !book.undo;
  $("redo-step").disabled = !book.redo;
  $("aside").textContent = book.aside.length ? t("book.aside", { names: book.aside.join(", ") }) : "";
  $("unread").replaceChildren(...book.unread.map((one) => make("p", { className: "problem", textContent: `${one.where}: ${one.message} ${one.hint}` })));
  const state = !book.built_at ? t("make.never") : book.newer.length || book.settings_newer ? t("make.stale") : t("make.fresh");
  $("book-said").append(" · ", make("a", { href: "/make", textContent: state }));
  await filter();
  document.body.dataset.loaded = String(Number(document.body.dataset.loaded ?? 0) + 1);
}

// Search

const plain = (text) => String(text).normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();

function words(one) {
  const { title = "", commentary = "", changes = "", key = "", feel = "" } = one.fields;
  return plain([one.title, title, commentary, changes, key, feel, one.file].join(" "));
}

async function filter() {
  const asked = plain($("find-words").value).split(/\s+/).filter(Boolean);
  const only = $("find-findings").checked;
  shown = book.phrases.filter((one) => asked.every((word) => words(one).includes(word)) && (!musical || musical.has(keyOf(one))));
  if (only) {
    $("found").textContent = t("find.working");
    await factsOf(shown);
    shown = shown.filter((one) => facts.get(factKey(one))?.error || facts.get(factKey(one))?.findings.length);
  }
  draw();
}

/** Half steps between the notes that stand in the field; null where they cannot be read. */
function steps() {
  const notes = readNotes($("find-notes").value);
  return notes && notes.slice(1).map((midi, index) => midi - notes[index]);
}

let searching = 0;
async function musicalSearch() {
  const progression = $("find-progression").value.trim();
  const asked = steps();
  $("find-notes").toggleAttribute("aria-invalid", asked === null);
  const turn = (searching += 1);
  if (asked === null || (!asked.length && !progression)) musical = null;
  else {
    $("found").textContent = t("find.working");
    for (let left = 1; left; ) {
      const answer = await call("search", { steps: asked, progression });
      if (turn !== searching) return;
      left = answer.left;
      musical = new Set(answer.found.map(([file, index]) => `${file} ${index}`));
      await filter();
      if (left) $("found").textContent = t("find.working");
    }
    return;
  }
  await filter();
}

let soon = 0;
for (const name of ["find-progression", "find-notes"]) {
  $(name).addEventListener("input", () => {
    clearTimeout(soon);
    soon = setTimeout(() => musicalSearch().catch(told), 200);
  });
}
$("find-words").addEventListener("input", () => filter().catch(told));
$("find-findings").addEventListener("change", () => filter().catch(told));
$("find").open = !matchMedia("(max-width: 700px)").matches;
$("finder").addEventListener("submit", (event) => event.preventDefault());

// Rows

const inSight = new IntersectionObserver(
  (entries) => {
    for (const entry of entries) {
      if (entry.isIntersecting) waiting.add(entry.target);
      else waiting.delete(entry.target);
    }
    fetchRows();
  },
  { rootMargin: "400px" },
);
const waiting = new Set();
let fetching = false;
const AT_ONCE = 4;

async function fetchRows() {
  if (fetching) return;
  fetching = true;
  try {
    while (waiting.size) {
      const rows = [...waiting].sort((one, two) => one.place - two.place).slice(0, AT_ONCE);
      for (const row of rows) waiting.delete(row);
      await factsOf(rows.map((row) => row.phrase));
      for (const row of rows) if (row.isConnected) fillRow(row);
    }
  } catch (error) {
    told(error);
  } finally {
    fetching = false;
  }
}

const factKey = (one) => JSON.stringify([one.file, one.index, one.fields]);

async function factsOf(phrases) {
  const missing = phrases.filter((one) => !facts.has(factKey(one)));
  for (let first = 0; first < missing.length; first += AT_ONCE) {
    const some = missing.slice(first, first + AT_ONCE);
    const found = await call("rows", { refs: some.map((one) => ({ file: one.file, index: one.index })) });
    some.forEach((one, index) => facts.set(factKey(one), found[index]));
  }
}

function draw() {
  const list = $("phrases");
  const had = new Map([...list.children].map((row) => [row.dataset.key, row]));
  const rows = shown.map((one, place) => {
    const key = keyOf(one);
    let row = had.get(key);
    if (!row || row.facts !== factKey(one)) {
      row = makeRow(one);
      row.facts = factKey(one);
    }
    row.phrase = one;
    row.place = place;
    row.querySelector(".row-number").textContent = book.phrases.indexOf(one) + 1;
    return row;
  });
  const focused = document.activeElement?.closest?.("#phrases > li");
  const focusId = focused && document.activeElement.dataset.act;
  // Rows that stand where they stood are left alone: one of them may be being renamed.
  if (rows.length !== list.children.length || rows.some((row, place) => row !== list.children[place])) list.replaceChildren(...rows);
  if (focused?.isConnected) focused.querySelector(`[data-act="${focusId}"]`)?.focus();
  inSight.disconnect();
  for (const row of rows) if (!row.filled) inSight.observe(row);
  const all = shown.length === book.phrases.length;
  $("found").textContent = all ? "" : counted("find.found", shown.length);
}

function makeRow(one) {
  const link = make("a", { href: `/phrase?${new URLSearchParams({ file: one.file, index: one.index })}`, textContent: one.title });
  const tool = (act, name) => {
    const button = make("button", { type: "button", className: "link", textContent: t(name), onclick: () => acts[act](one, row) });
    button.dataset.act = act;
    button.setAttribute("aria-label", t("row.act", { act: t(name), title: one.title }));
    return button;
  };
  const row = make(
    "li",
    { draggable: true },
    make("div", { className: "row-head" }, make("span", { className: "row-number", "aria-hidden": "true" }), make("h2", {}, link), make("p", { className: "row-facts" })),
    make("div", { className: "row-score" }),
    make("p", { className: "row-tools" }, tool("hear", "row.hear"), tool("up", "row.up"), tool("down", "row.down"), tool("rename", "row.rename"), tool("duplicate", "row.duplicate"), tool("aside", "row.aside")),
  );
  row.dataset.key = keyOf(one);
  row.addEventListener("dragstart", (event) => {
    dragged = row;
    event.dataTransfer.setData("text/plain", one.title);
    event.dataTransfer.effectAllowed = "move";
  });
  row.addEventListener("dragover", (event) => {
    if (!dragged) return;
    event.preventDefault();
    row.classList.add("over");
  });
  row.addEventListener("dragleave", () => row.classList.remove("over"));
  row.addEventListener("drop", (event) => {
    row.classList.remove("over");
    if (!dragged) return;
    event.preventDefault();
    const to = book.phrases.indexOf(row.phrase);
    moveTo(dragged.phrase, to);
    dragged = null;
  });
  return row;
}
let dragged = null;

function fillRow(row) {
  const found = facts.get(factKey(row.phrase));
  if (!found) return;
  row.filled = true;
  inSight.unobserve(row);
  const place = row.querySelector(".row-score");
  const said = row.querySelector(".row-facts");
  if (found.error) {
    said.replaceChildren(make("span", { className: "problem", textContent: t("row.unread", { message: found.error.message }) }));
    return;
  }
  putScore(place, found.score);
  place.style.setProperty("--mm", found.score.mm[0]);
  const wrong = found.findings.length ? counted("row.findings", found.findings.length) : "";
  said.textContent = [signs(found.key), found.progression && signs(found.progression), found.scales.map(signs).join(", "), t("phrase.level", { n: found.level })].filter(Boolean).join(" · ");
  if (wrong) said.append(" · ", make("strong", { className: "wrong", textContent: wrong }));
  document.body.dataset.rows = String(document.querySelectorAll("#phrases .staff svg").length);
}

// What can be done with a phrase

async function act(given, said) {
  try {
    const answer = await call("act", given);
    say(said);
    await load();
    return answer;
  } catch (error) {
    told(error);
    return null;
  }
}

async function moveTo(one, to) {
  const last = book.phrases.length - 1;
  const place = Math.max(0, Math.min(to, last));
  await act({ act: "move", file: one.file, index: one.index, to: place }, t("row.moved", { title: one.title, n: place + 1 }));
}

const acts = {
  up: (one) => moveTo(one, book.phrases.findIndex((other) => keyOf(other) === keyOf(one)) - 1),
  down: (one) => moveTo(one, book.phrases.findIndex((other) => keyOf(other) === keyOf(one)) + 1),
  duplicate: (one) => act({ act: "duplicate", file: one.file, index: one.index, title: t("row.copy", { title: one.title }) }, t("row.duplicated", { title: one.title })),
  aside: (one) => act({ act: "aside", file: one.file, index: one.index }, t("row.is-aside", { title: one.title })),
  rename: (one, row) => {
    const head = row.querySelector("h2");
    const input = make("input", { type: "text", value: one.fields.title ?? "", "aria-label": t("phrase.title") });
    let kept = false;
    const keep = async () => {
      if (kept || !input.isConnected) return;
      kept = true;
      try {
        await call("save", { file: one.file, index: one.index, changes: { title: [one.fields.title ?? null, input.value.trim() || null] } });
        row.facts = "";
        await load();
      } catch (error) {
        told(error);
      }
    };
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter") keep();
      if (event.key === "Escape") {
        kept = true;
        row.facts = "";
        draw();
      }
    });
    input.addEventListener("blur", keep);
    head.replaceChildren(input);
    input.focus();
    input.select();
  },
  hear: async (one) => {
    try {
      const fields = one.fields;
      player.audio();
      const times = await call("times", { fields });
      if (!player.palette) await player.setPalette(await sound("notes"));
      player.playLine(times.notes);
    } catch (error) {
      told(error);
    }
  },
};
const player = new Player();
playedSearch(player);

$("add").addEventListener("submit", async (event) => {
  event.preventDefault();
  const answer = await act({ act: "add", title: $("new-title").value.trim() }, t("book.added"));
  if (answer) location.href = `/phrase?${new URLSearchParams({ file: answer.file, index: answer.index })}`;
});

async function take(file) {
  if (!file) return;
  try {
    const found = await bringIn(file);
    say([counted("file.brought", found.files.length), ...found.remarks].join(" "));
    await load();
  } catch (error) {
    told(error);
  }
}
$("file").addEventListener("change", () => take($("file").files[0]));
addEventListener("dragover", (event) => event.dataTransfer?.types.includes("Files") && event.preventDefault());
addEventListener("drop", (event) => {
  if (event.dataTransfer?.files.length) {
    event.preventDefault();
    take(event.dataTransfer.files[0]);
  }
});

let again = 0;
onNews((news) => {
  if (news.what !== "changed" && news.what !== "back") return;
  if (news.window === windowName) return; // whoever did it here looks by himself
  clearTimeout(again);
  again = setTimeout(() => load().catch(told), 80);
});
load().catch(told);
