// Why it works: each sentence shows its notes, and they sound; the scales are notes to hear.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;

  const SHARE = 60;
  const LONGEST_GAP_S = 0.9;
  const SCALE_NOTE_S = 0.38;
  const SENTENCE_NOTE_S = 0.55;

  let parts = null;
  let score = null;
  let data = null;
  let home = 0;

  async function open() {
    const asked = practice.chosen.phrase + practice.instrument().slug;
    data = await practice.phraseData();
    if (practice.chosen.phrase + practice.instrument().slug !== asked) return;
    parts.head.update();
    home = Math.max(0, data.part.keys.findIndex((one) => one.key === data.part.home));
    score.show(data.part, home);
    score.point([]);
    parts.home.textContent = say("why.home", { key: data.part.keys[home].name });
    const { sentences, scales } = data.part.why;
    parts.sentences.replaceChildren(
      ...sentences.map(([text, notes]) => {
        const button = element("button", { "aria-pressed": "false", onclick: () => point(button, notes) }, text);
        return element("li", {}, button);
      }),
    );
    parts.scales.replaceChildren(...scales.map(scaleRow));
  }

  function point(button, notes) {
    const on = button.getAttribute("aria-pressed") !== "true";
    for (const other of parts.sentences.querySelectorAll("button")) other.setAttribute("aria-pressed", "false");
    button.setAttribute("aria-pressed", String(on));
    score.point(on ? notes : []);
    practice.sound.stop();
    if (on && notes.length) hear(notes);
  }

  /** Play some notes of the line in their rhythm, without the long waits between notes that are far apart. */
  function hear(notes) {
    const line = practice.lineNotes(data.played, home, SHARE, data.part.keys[home].midi);
    const chosen = notes.filter((note) => line[note]);
    let at = 0;
    const timed = chosen.map((note, place) => {
      const [midi, start, seconds] = line[note];
      if (place) at += Math.min(LONGEST_GAP_S, Math.max(0.12, start - line[chosen[place - 1]][1]));
      return [midi, at, Math.max(seconds, chosen.length < 4 ? SENTENCE_NOTE_S : seconds)];
    });
    return practice.sound.notes(practice.sound.lineInstrument(data.played), timed, {
      onStruck: (place) => score.mark(place < 0 ? -1 : chosen[place]),
    });
  }

  function scaleRow(scale) {
    const name = practice.sound.lineInstrument(data.played);
    const run = () => practice.sound.notes(name, scale.midi.map((midi, place) => [midi, place * SCALE_NOTE_S, SCALE_NOTE_S]), {
      onStruck: (place) => mark(row, place),
    });
    const row = element(
      "ul",
      { class: "notes-row" },
      scale.midi.map((midi, place) =>
        element("li", {}, element("button", { onclick: () => practice.sound.notes(name, [[midi, 0, 1]]) }, scale.names[place], element("small", {}, sign(scale.degrees[place])))),
      ),
    );
    return element("div", {}, element("h3", {}, say("why.scale", { name: sign(scale.name), chord: sign(scale.chord) })), element("button", { onclick: run }, say("why.scale.hear")), row);
  }

  function mark(row, place) {
    for (const [at, item] of [...row.children].entries()) item.classList.toggle("sounding", at === place);
  }

  /** A degree or a chord with its signs: "b9" is "♭9". */
  const sign = (text) => text.replace(/b(?=b*\d)/g, "♭").replace(/#/g, "♯").replace(/(?<=^[A-G])b/, "♭");
  practice.sign = sign;

  function build() {
    parts = {
      head: practice.head(open, { keys: false }),
      home: element("p", { class: "quiet" }),
      score: element("div", { class: "paper" }),
      sentences: element("ul", { class: "sentences" }),
      scales: element("div", { class: "scales" }),
    };
    score = practice.score(parts.score);
    const everything = () => data.part.keys[home].midi.map((_, note) => note);
    return element(
      "section",
      {},
      element("h1", { class: "unseen" }, say("screen.why")),
      parts.head,
      parts.home,
      parts.score,
      element("p", { class: "row" }, element("button", { onclick: () => hear(everything()) }, say("why.line"))),
      element("p", { class: "quiet" }, say("why.says")),
      parts.sentences,
      element("h2", {}, say("why.scales")),
      parts.scales,
    );
  }

  practice.screens.push({
    name: "why",
    word: "practice.screen.why",
    element: build,
    opened: () => {
      practice.opening = open();
    },
    closed: () => practice.sound.stop(),
  });
})();
