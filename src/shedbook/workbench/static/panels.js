// Beside the sheet: what is said of the chosen note, the findings, the scales, the explanation, the print.

import { $, call, make, say, told } from "./page.js";
import { choose, fieldsNow, onChosen, onSeen, ref, state, write, writeStep } from "./phrase.js";
import { chordSigns, degreeSigns, signs, t } from "./words.js";

export function panels(phrase) {
  onChosen(showNote);
  onSeen(() => showNote(state.chosen));
  onSeen(showFindings);
  onSeen(showScales);
  onSeen(showSentences);
  prints(phrase);
}

/** Fill a place only where what it shows has changed, so that nothing is read out twice and focus stays. */
function fill(place, key, build) {
  const now = JSON.stringify(key);
  if (place.shown === now) return;
  place.shown = now;
  place.replaceChildren(...build());
}

function showNote(note) {
  const seen = state.seen;
  const said = note >= 0 && seen ? seen.said[note] : null;
  fill($("note-strip"), said ?? "none", () => {
    if (!said) return [make("p", { className: "quiet", textContent: t("note.none") })];
    const account = seen.notes[note];
    return [
      make("p", { className: "note-name" }, make("b", { textContent: degreeSigns(account.degree) || "·" }), " ", make("span", { textContent: t(`role.${account.role}`) })),
      make("p", { textContent: signs(said.join(" ")) }),
      ...(account.target === null ? [] : [make("button", { type: "button", textContent: t("note.to-target"), onclick: () => choose(account.target, { focus: true }) })]),
    ];
  });
}

function showFindings(seen) {
  fill($("findings"), seen.findings, () => {
    if (!seen.findings.length) return [make("li", { className: "quiet", textContent: t("findings.none") })];
    return seen.findings.map((one) => findingPart(one, seen));
  });
}

function findingPart(one, { language: lang }) {
  const place = one.bar === null ? t("findings.whole") : one.at ? t("place.beat", { bar: one.bar, beat: one.at }) : t("place.bar", { bar: one.bar });
  const go = one.note === null ? make("span", { textContent: place }) : make("button", { type: "button", className: "link", textContent: place, onclick: () => choose(one.note, { focus: true }) });
  const buttons = make("p", { className: "row" });
  for (const [name, text] of Object.entries(one.mends)) {
    buttons.append(
      make("button", {
        type: "button",
        className: "mend",
        textContent: t("findings.do"),
        "aria-label": `${t("findings.do")}: ${signs(one.mend)}`,
        onclick: () => {
          writeStep(name, text);
          say(t("findings.mended"));
        },
      }),
    );
  }
  buttons.append(letStand(one));
  return make(
    "li",
    { className: `finding ${one.severity}` },
    make("p", {}, make("strong", { textContent: t(`severity.${one.severity}`) }), " ", go),
    make("p", { lang, textContent: signs(one.message) }),
    make("p", { className: "quiet", lang, textContent: signs(one.mend) }),
    buttons,
  );
}

/** Let a finding stand, with a reason, as the manuscript keeps it. */
function letStand(one) {
  const place = make("span", { className: "stand" });
  const open = make("button", {
    type: "button",
    className: "link",
    textContent: t("findings.stand"),
    onclick: () => {
      const why = make("input", { type: "text", "aria-label": t("findings.why"), placeholder: t("findings.why") });
      const keep = make("button", {
        type: "button",
        textContent: t("findings.keep"),
        onclick: () => {
          if (!why.value.trim()) return why.focus();
          write("silence", { ...(fieldsNow().silence ?? {}), [one.rule]: why.value.trim() });
        },
      });
      place.replaceChildren(why, keep);
      why.focus();
    },
  });
  place.append(open);
  return place;
}

function showScales(seen) {
  const place = $("scale-list");
  fill(place, seen.scales, () => {
    let before = "";
    const parts = [];
    for (const one of seen.scales) {
      const key = JSON.stringify([one.chord, one.candidates]);
      if (key === before || !one.candidates.length) continue;
      before = key;
      parts.push(scalePart(one, seen));
    }
    return parts.length ? parts : [make("p", { className: "quiet", textContent: t("scales.none") })];
  });
}

function scalePart(one, seen) {
  const change = seen.changes[one.change];
  const list = make("ol");
  for (const candidate of one.candidates) {
    const chosen = candidate.name === one.scale;
    const outside = [...new Set(candidate.outside.map((note) => seen.names[note]))];
    const item = make(
      "li",
      { className: chosen ? "now" : "" },
      make("p", {}, make("strong", { textContent: signs(candidate.name) }), " ", make("span", { className: "notes", textContent: signs(candidate.notes.join(" ")) })),
      make("p", { className: "quiet", textContent: signs(candidate.reason) }),
      make("p", { textContent: outside.length ? t("scales.outside", { notes: outside.join(", ") }) : t("scales.holds") }),
    );
    if (chosen) item.append(make("p", { className: "quiet", textContent: one.stated ? t("scales.stated") : t("scales.chosen") }));
    if (!chosen || !one.stated) {
      item.append(make("button", { type: "button", textContent: t("scales.take", { scale: candidate.name }), onclick: () => take(one.change, candidate.name) }));
    }
    list.append(item);
  }
  const title = t("scales.over", { chord: chordSigns(one.chord), place: t("place.beat", { bar: change.bar, beat: change.at }) });
  return make("details", { open: seen.scales.length < 3 }, make("summary", { textContent: title }), list);
}

async function take(change, name) {
  try {
    const found = await call("scales", { fields: fieldsNow(), change, name });
    writeStep("scales", found.scales);
    say(t("scales.taken", { scale: name }));
  } catch (error) {
    told(error);
  }
}

function showSentences(seen) {
  fill($("sentences"), seen.sentences, () => seen.sentences.map(sentencePart));
  const computed = new Set(seen.sentences.map((one) => one.computed));
  const lost = Object.entries(fieldsNow().sentences ?? {}).filter(([one]) => !computed.has(one));
  fill($("lost-sentences"), lost, () =>
    lost.map(([one, own]) =>
      make(
        "p",
        { className: "lost" },
        make("strong", { textContent: t("told.changed") }),
        " ",
        own,
        " ",
        make("button", { type: "button", textContent: t("told.drop"), onclick: () => setSentence(one, "") }),
      ),
    ),
  );
}

function sentencePart(one) {
  const item = make("li", { className: one.own ? "own" : "" });
  const text = make("span", { textContent: signs(one.own || one.computed) });
  const change = make("button", {
    type: "button",
    className: "link",
    textContent: t("told.edit"),
    "aria-label": t("told.edit-this", { sentence: one.own || one.computed }),
    onclick: () => {
      const area = make("textarea", { rows: 3, value: one.own || one.computed, "aria-label": t("told.edit-this", { sentence: one.computed }) });
      const keep = make("button", { type: "button", textContent: t("told.keep"), onclick: () => setSentence(one.computed, area.value) });
      const back = make("button", { type: "button", textContent: t("told.computed"), onclick: () => setSentence(one.computed, "") });
      item.replaceChildren(area, make("p", { className: "row" }, keep, one.own ? back : null));
      area.focus();
    },
  });
  item.append(text, " ", ...(one.own ? [make("em", { className: "quiet", textContent: t("told.yours") }), " "] : []), change);
  return item;
}

function setSentence(computed, own) {
  const found = { ...(fieldsNow().sentences ?? {}) };
  const text = own.split(/\s+/).filter(Boolean).join(" ");
  if (text && text !== computed) found[computed] = text;
  else delete found[computed];
  $("sentences").shown = "";
  write("sentences", Object.keys(found).length ? found : null);
}

function prints(phrase) {
  const select = $("print-edition");
  for (const [name, title] of phrase.editions) select.append(make("option", { value: name, textContent: title }));
  $("print-one").addEventListener("click", () => printPages({ keys: [tonicOf(state.seen?.key ?? "C")] }));
  $("print-all").addEventListener("click", () => printPages({}));
}

const tonicOf = (key) => key.split(" ")[0];

export async function printPages(given) {
  $("print-said").textContent = t("print.working");
  try {
    const found = await call("print", { ...ref, edition: $("print-edition").value, ...given });
    const link = make("a", { href: found.address, target: "_blank", rel: "noopener", textContent: t("print.open") });
    $("print-said").replaceChildren(link);
    link.focus();
  } catch (error) {
    $("print-said").textContent = "";
    told(error);
  }
}

