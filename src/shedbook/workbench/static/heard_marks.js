// What was heard, at the notes of the score: a word over the staff, a sign at the note, and only then a colour.
//
// A wrong note is crossed out, a missing one ringed with dashes, an extra one a diamond after the note before it,
// one that was hard to hear is underlined with dots.

import { make } from "./page.js";
import { signs, t } from "./words.js";

const NS = "http://www.w3.org/2000/svg";
const NOTEHEAD = 'use[href^="#sE0A"]'; // noteheads stand at U+E0A0 to U+E0AF [SMuFL 1.4]
const LEVEL_PX = 20;
const WORDS = {
  wrong: (name) => t("took.mark.wrong", { name }),
  missing: () => t("took.mark.missing"),
  extra: (name) => t("took.mark.extra", { name }),
  unsure: () => t("took.mark.unsure"),
};

/** Draw the marks over each system; none takes them away. */
export function drawMarks(score, seen, scale, marks) {
  for (const old of score.querySelectorAll(".heard-words, .heard-signs")) old.remove();
  for (const reed of score.querySelectorAll(".reed[aria-describedby]")) reed.removeAttribute("aria-describedby");
  if (!seen || !marks.length) return;
  score.querySelectorAll(":scope > .system").forEach((row, index) => {
    const line = seen.score.lines[index];
    const here = marks.map((mark, at) => ({ ...mark, at })).filter((mark) => String(Math.max(0, mark.note)) in line.notes);
    if (here.length) drawRow(row, here, (note) => (line.notes[note] - seen.score.box[0]) * scale, score);
  });
}

function drawRow(row, here, x, score) {
  const words = make("div", { className: "heard-words", "aria-hidden": "true" });
  row.prepend(words);
  const ends = []; // how far each level of words is taken
  const tags = here.map((mark) => {
    const tag = make("span", { className: `heard ${mark.kind}`, textContent: signs(WORDS[mark.kind](mark.name)) });
    words.append(tag);
    const width = tag.offsetWidth;
    const left = Math.max(0, Math.min(x(Math.max(0, mark.note)) - 4, words.clientWidth - width));
    let level = ends.findIndex((end) => end < left);
    if (level < 0) level = ends.push(0) - 1;
    ends[level] = left + width + 4;
    tag.style.left = `${left}px`;
    return { tag, level };
  });
  words.style.height = `${ends.length * LEVEL_PX + 4}px`;
  for (const { tag, level } of tags) tag.style.bottom = `${level * LEVEL_PX + 2}px`;
  drawSigns(row, here, score);
  for (const mark of here) {
    const reed = row.querySelector(`.reed[data-note="${Math.max(0, mark.note)}"]`);
    const described = [reed?.getAttribute("aria-describedby"), `heard-${mark.at}`].filter(Boolean).join(" ");
    reed?.setAttribute("aria-describedby", described);
  }
}

function drawSigns(row, here, score) {
  const frame = row.getBoundingClientRect();
  const svg = document.createElementNS(NS, "svg");
  svg.setAttribute("class", "heard-signs");
  svg.setAttribute("aria-hidden", "true");
  for (const mark of here) {
    const group = score.querySelector(`[id="sn${Math.max(0, mark.note)}"]`);
    const head = group?.querySelector(NOTEHEAD) ?? group;
    if (!head) continue;
    const box = head.getBoundingClientRect();
    const [left, top, right, bottom] = [box.left - frame.left, box.top - frame.top, box.right - frame.left, box.bottom - frame.top];
    const path = document.createElementNS(NS, "path");
    path.setAttribute("class", mark.kind);
    path.setAttribute("d", SIGNS[mark.kind](left, top, right, bottom, mark.note < 0));
    svg.append(path);
  }
  row.append(svg);
}

const SIGNS = {
  wrong: (left, top, right, bottom) => `M${left - 4} ${top - 4}L${right + 4} ${bottom + 4}M${right + 4} ${top - 4}L${left - 4} ${bottom + 4}`,
  missing: (left, top, right, bottom) => {
    const radius = Math.max(right - left, bottom - top) / 2 + 4;
    return `M${(left + right) / 2 - radius} ${(top + bottom) / 2}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0z`;
  },
  extra: (left, top, right, bottom, before) => `M${before ? left - 12 : right + 12} ${(top + bottom) / 2 - 6}l6 6l-6 6l-6 -6z`,
  unsure: (left, top, right, bottom) => `M${left - 4} ${bottom + 5}H${right + 4}`,
};
