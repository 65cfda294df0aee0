// What every screen has: calls to the workbench, news from it, the theme, steps back, the end.

import { t } from "./words.js";

export const $ = (id) => document.getElementById(id);
export const nonce = document.querySelector('meta[name="csp-nonce"]').content;
export const windowName = sessionStorage.getItem("window") ?? crypto.randomUUID();
sessionStorage.setItem("window", windowName);

/** Make an element: its name, its attributes and properties, what is in it. */
export function make(name, given = {}, ...inside) {
  const found = document.createElement(name);
  for (const [key, value] of Object.entries(given)) {
    if (value === undefined || value === null || value === false) continue;
    if (key in found && key !== "list" && !key.startsWith("aria")) found[key] = value;
    else found.setAttribute(key, value === true ? "" : value);
  }
  found.append(...inside.filter((one) => one !== null && one !== undefined));
  return found;
}

export class Refused extends Error {
  constructor(error) {
    super([error.message, error.hint].filter(Boolean).join(" "));
    this.error = error;
  }
}

export class Gone extends Error {}
export class Stale extends Error {}

async function answered(promise) {
  let answer;
  try {
    answer = await promise;
  } catch (error) {
    if (error.name === "AbortError") throw error;
    throw new Gone(t("net.gone"));
  }
  if (answer.status === 409) throw new Stale();
  if (!answer.ok) {
    const kind = answer.headers.get("content-type") ?? "";
    throw new Refused(kind.includes("json") ? (await answer.json()).error : { message: await answer.text() });
  }
  return answer;
}

/** Ask for something that changes nothing. */
export async function ask(address, inside = {}) {
  const query = new URLSearchParams(inside).toString();
  return (await answered(fetch(query ? `${address}?${query}` : address))).json();
}

const posted = (name, given, more = {}) =>
  answered(
    fetch(`/api/${name}`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ window: windowName, ...given }),
      ...more,
    }),
  );

/** Call something by name. */
export async function call(name, given = {}, more = {}) {
  return (await posted(name, given, more)).json();
}

/** Ask for sound: what is said of it, and its bytes. */
export async function sound(name, given) {
  const answer = given === undefined ? await answered(fetch(`/api/${name}`)) : await posted(name, given);
  const bytes = await answer.arrayBuffer();
  const length = new DataView(bytes).getUint32(0);
  const said = JSON.parse(new TextDecoder().decode(bytes.slice(4, 4 + length)));
  return { ...said, wav: bytes.slice(4 + length) };
}

/** Send a file to an address that takes files. */
export async function send(name, file) {
  const address = `/api/${name}?${new URLSearchParams({ name: file.name })}`;
  const headers = { "content-type": "application/octet-stream" };
  return (await answered(fetch(address, { method: "POST", headers, body: file }))).json();
}

export const bringIn = (file) => send("import", file);

// News

const listeners = [];
export const onNews = (listener) => listeners.push(listener);

let ended = false;
const events = new EventSource("/api/events");
events.onmessage = (event) => {
  const news = JSON.parse(event.data);
  if (news.what === "ended") sayEnded();
  for (const listener of listeners) listener(news);
};
events.onopen = () => {
  ended = false;
  notice("");
  for (const listener of listeners) listener({ what: "back" });
};
events.onerror = () => {
  if (!ended) notice(t("net.gone"));
};

function sayEnded() {
  ended = true;
  notice(t("end.said"));
}

export function notice(text, ...buttons) {
  const place = $("notice");
  place.hidden = !text;
  place.replaceChildren(text, ...buttons);
}

let clearing = 0;
export function say(text) {
  $("said").textContent = text;
  clearTimeout(clearing);
  clearing = setTimeout(() => ($("said").textContent = ""), 6000);
}

/** Say what went wrong, wherever it did. */
export function told(error) {
  if (error instanceof Stale) return;
  if (error instanceof Gone || error instanceof Refused) notice(error.message, closer());
  else throw error;
}

const closer = () => make("button", { type: "button", textContent: t("notice.close"), onclick: () => notice("") });

// Theme

const theme = $("theme");
theme.value = document.documentElement.dataset.theme ?? "system";
theme.addEventListener("change", () => {
  if (theme.value === "system") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme.value;
  try {
    localStorage.setItem("theme", theme.value);
  } catch {
    // It holds for this page then.
  }
});

for (const link of document.querySelectorAll("nav a")) {
  if (link.dataset.for === document.body.dataset.screen) link.setAttribute("aria-current", "page");
}

// Steps

let beforeStep = async () => {};
export const onBeforeStep = (todo) => (beforeStep = todo);

async function step(act) {
  try {
    await beforeStep();
    const { step: taken } = await call("act", { act, window: "" });
    say(taken ? t(`${act}.said`, { what: t(`step.${taken[0]}`), about: taken[1] }) : t(`${act}.nothing`));
    return taken;
  } catch (error) {
    told(error);
  }
}
$("undo-step").addEventListener("click", () => step("undo"));
$("redo-step").addEventListener("click", () => step("redo"));

$("end").addEventListener("click", async () => {
  await beforeStep();
  await call("end").catch(() => {});
  sayEnded();
});

// Scores

/** Put the systems of a score into a place; those that stand there already are left alone. */
export function putScore(place, score, { label = "" } = {}) {
  const [left, top, width, height] = score.box;
  const cuts = [top, ...score.cuts, top + height];
  if (place.defs !== score.defs) {
    let defs = place.querySelector(":scope > .glyphs");
    if (!defs) place.append((defs = make("div", { className: "glyphs", "aria-hidden": "true" })));
    defs.innerHTML = `<svg width="0" height="0">${score.defs}</svg>`;
    place.defs = score.defs;
  }
  const rows = [...place.querySelectorAll(":scope > .system")];
  while (rows.length > score.systems.length) rows.pop().remove();
  const changed = [];
  score.systems.forEach((system, index) => {
    let row = rows[index];
    if (!row) {
      row = make("div", { className: "system" }, make("div", { className: "staff" }));
      place.append(row);
      rows.push(row);
    }
    const box = `${left} ${cuts[index]} ${width} ${cuts[index + 1] - cuts[index]}`;
    const staff = row.querySelector(".staff");
    if (row.drawn !== system || row.box !== box) {
      staff.innerHTML = `<svg viewBox="${box}" fill="currentColor" role="img" aria-label="">${system}</svg>`;
      staff.firstChild.setAttribute("aria-label", label);
      if (!label) staff.firstChild.setAttribute("aria-hidden", "true");
      row.drawn = system;
      row.box = box;
      changed.push(index);
    }
  });
  return { rows, changed };
}
