// What happens in the line, under the score: how far each note is from rest, where it lands, how it crosses.
//
// A note is a button with its degree. The water line is where a note may stay; the higher a note stands over it,
// the more it wants to move on. A post under the line is a landing, an arch is a crossing with a word on it.

import { make } from "./page.js";
import { degreeSigns, t } from "./words.js";

const RISE_PX = [0, 14, 22, 34];
const FIRM = { "minor third": "firm", third: "firm", seventh: "firm", fifth: "firm", root: "firm", colour: "colour" };

/** Draw the lane of each system. `pick(note)` is called for a note that is chosen; `key(event, note)` for a key. */
export function drawLanes(rows, seen, scale, { pick, key, chosen }) {
  const landing = new Map(seen.landings.map((one) => [one.note, one]));
  const left = seen.score.box[0];
  const x = (unit) => (unit - left) * scale;
  rows.forEach((row, index) => {
    const line = seen.score.lines[index];
    let lane = row.querySelector(".lane");
    if (!lane) {
      lane = make("div", { className: "lane" });
      row.append(lane);
    }
    const parts = [make("div", { className: "water", "aria-hidden": "true" })];
    const notes = Object.entries(line.notes).map(([note, at]) => [Number(note), x(at)]);
    notes.forEach(([note, at]) => parts.push(...noteParts(note, at, seen, landing, { pick, key, chosen })));
    for (const link of seen.links) parts.push(linkPart(link, line, x, seen));
    parts.push(coverage(index, line, x, seen));
    const focused = lane.contains(document.activeElement) ? document.activeElement.dataset.note : undefined;
    lane.replaceChildren(...parts.filter(Boolean));
    if (focused !== undefined) lane.querySelector(`.reed[data-note="${focused}"]`)?.focus({ preventScroll: true });
  });
}

function noteParts(note, at, seen, landing, { pick, key, chosen }) {
  const tension = seen.tensions[note];
  const account = seen.notes[note];
  const parts = [];
  const button = make("button", {
    type: "button",
    className: `reed tension-${tension}`,
    textContent: degreeSigns(account.degree) || "·",
    tabIndex: note === chosen ? 0 : -1,
    onclick: () => pick(note),
    onkeydown: (event) => key(event, note),
  });
  button.dataset.note = note;
  button.setAttribute("aria-label", t("lane.note", { name: seen.names[note], said: seen.said[note][0], role: t(`role.${account.role}`) }));
  button.setAttribute("aria-pressed", String(note === chosen));
  button.style.left = `${at}px`;
  button.style.setProperty("--rise", `${RISE_PX[tension]}px`);
  parts.push(button);
  const lands = landing.get(note);
  if (lands) {
    const post = make("span", { className: `post ${FIRM[lands.strength] ?? "loose"}`, "aria-hidden": "true" });
    post.style.left = `${at}px`;
    parts.push(post);
  }
  return parts;
}

function linkPart(link, line, x, seen) {
  const from = line.notes[link.from];
  if (from === undefined || link.to === null) return null;
  const to = line.notes[link.to];
  const start = x(from);
  const end = to === undefined ? start + 26 : x(to);
  const word = linkWord(link, seen);
  const part = make("span", { className: `crossing${to === undefined ? " goes-on" : ""}`, "aria-hidden": "true" });
  part.append(make("span", { textContent: word }));
  part.style.left = `${start}px`;
  part.style.width = `${Math.max(end - start, 16)}px`;
  return part;
}

export function linkWord(link) {
  if (link.guide_tone) return `${degreeSigns(link.guide_tone[0])}→${degreeSigns(link.guide_tone[1])}`;
  if (link.held !== null) return t("link.held");
  if (link.wrapped) return t("link.wrapped");
  if (link.by_step) return t(Math.abs(link.semitones) === 1 ? "link.half" : "link.step");
  return t("link.leap");
}

/** The degrees of each chord's scale: those that sound stand plain, those that do not in brackets. */
function coverage(index, line, x, seen) {
  const last = line.first + line.edges.length - 2;
  const place = make("div", { className: "covered" });
  const here = seen.coverage
    .map((one, at) => ({ ...one, ...seen.spansOver[at] }))
    .filter((one) => one.bar >= line.first && one.bar <= last && one.used.length + one.missing.length)
    .map((one) => {
      const edge = one.bar - line.first;
      const share = (one.beat - 1) / seen.metre[0];
      const bar = x(line.edges[edge + 1]) - x(line.edges[edge]);
      return { ...one, start: x(line.edges[edge]) + share * bar };
    });
  here.forEach((one, at) => {
    const group = make("span", { className: "cover" });
    const end = at + 1 < here.length ? here[at + 1].start : x(line.edges.at(-1));
    group.style.left = `${one.start + 6}px`;
    group.style.width = `${Math.max(40, end - one.start - 12)}px`;
    group.append(make("span", { className: "unseen", textContent: t("cover.label", { chord: one.chord, scale: one.scale }) }));
    const order = [...one.used.map((degree) => [degree, true]), ...one.missing.map((degree) => [degree, false])].sort(
      (first, second) => rank(first[0]) - rank(second[0]),
    );
    for (const [degree, used] of order) {
      group.append(make("span", { className: used ? "used" : "missing", textContent: used ? degreeSigns(degree) : `(${degreeSigns(degree)})` }), " ");
    }
    place.append(group);
  });
  return place;
}

const rank = (degree) => {
  const number = Number(degree.replace(/[b#]+/, ""));
  const sign = degree.startsWith("b") ? -0.5 : degree.startsWith("#") ? 0.5 : 0;
  return ({ 9: 2, 11: 4, 13: 6 }[number] ?? number) + sign;
};
