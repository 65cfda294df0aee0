// By ear: hear the phrase, sing it, find it, and only then see it, bar by bar. The page may listen, as a help.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;

  const SLOW_SHARE = 55;
  const USUAL_SHARE = 80;

  let parts = null;
  let score = null;
  let data = null;
  let shown = new Set();
  let ears = null;

  async function open() {
    const asked = `${practice.chosen.phrase} ${practice.instrument().slug}`;
    data = await practice.phraseData();
    if (`${practice.chosen.phrase} ${practice.instrument().slug}` !== asked) return;
    practice.chosen.key = practice.phrase(practice.chosen.phrase).keys[practice.keyPlace()].key;
    parts.head.update();
    score.show(data.part, practice.keyPlace());
    score.point([]);
    shown = new Set();
    cover();
    parts.found.textContent = "";
    parts.notes.replaceChildren();
    ears?.begin();
  }

  const all = () => [...new Set(score.bars())];
  const next = () => all().find((bar) => !shown.has(bar));

  function cover() {
    score.cover(all().filter((bar) => !shown.has(bar)));
    const bar = next();
    parts.next.disabled = bar === undefined;
    parts.next.textContent = say("ear.see.next", { n: bar ?? all()[all().length - 1] });
    parts.bars.replaceChildren(
      ...all().filter((one) => one > 0).map((one) => element("button", { onclick: () => hear([one, one]) }, say("ear.hear.bar", { n: one }))),
    );
  }

  function hear(bars = null) {
    ears?.deaf();
    return practice.sound.play({
      played: data.played,
      key: practice.keyPlace(),
      share: parts.slow.checked ? SLOW_SHARE : USUAL_SHARE,
      heard: { line: true, bass: parts.chords.checked, comping: parts.chords.checked, drums: false, click: false },
      bars,
      count: false,
      times: 1,
      sounding: data.part.keys[practice.keyPlace()].midi,
      told: { onStruck: (note) => score.mark(hidden(note) ? -1 : note), onState: state },
    });
  }

  function hidden(note) {
    return note < 0 || shown.size === 0 || !all().every((bar) => shown.has(bar));
  }

  function state(playing) {
    parts.hear.setAttribute("aria-pressed", String(playing));
    if (!playing) ears?.hearAgain();
  }

  function firstNote() {
    const midi = data.part.keys[practice.keyPlace()].midi[0];
    practice.sound.notes(practice.sound.lineInstrument(data.played), [[midi, 0, 1.5]]);
  }

  // Listening.

  async function listen() {
    if (ears) {
      ears.stop();
      ears = null;
      parts.listen.textContent = say("ear.listen");
      parts.listen.setAttribute("aria-pressed", "false");
      return;
    }
    try {
      ears = await practice.ears(practice.sound.context(), heard);
    } catch (error) {
      parts.found.textContent = say("ear.listen.none", { why: error.name || error.message });
      return;
    }
    parts.listen.textContent = say("ear.listen.stop");
    parts.listen.setAttribute("aria-pressed", "true");
    parts.found.textContent = say("ear.listen.nothing");
  }

  /** What the line should have, against what was heard: the longest run of it that was heard in order. */
  function heard(midis, now) {
    const wanted = data.part.keys[practice.keyPlace()].midi;
    const found = practice.inOrder(wanted, midis);
    parts.notes.replaceChildren(
      ...wanted.map((_, place) => {
        const there = found.has(place);
        return element("li", { class: there ? "there" : "not-there" }, element("span", { "aria-hidden": "true" }, there ? "●" : "○"), element("span", { class: "unseen" }, String(place + 1)));
      }),
    );
    const missing = wanted.map((_, place) => place + 1).filter((number) => !found.has(number - 1));
    parts.now.textContent = now === null ? "" : say("ear.listen.now", { note: practice.noteName(now + practice.writtenAbove()) });
    if (!midis.length) parts.found.textContent = say("ear.listen.nothing");
    else if (!missing.length) parts.found.textContent = say("ear.listen.all", { of: wanted.length });
    else parts.found.textContent = say("ear.listen.found", { n: found.size, of: wanted.length, missing: missing.join(", ") });
  }

  // What the screen is made of.

  function box(row) {
    const found = element("input", { type: "checkbox" });
    return [found, element("label", { class: "check" }, found, say(row))];
  }

  function build() {
    const [slow, slowly] = box("ear.slow");
    const [chords, withChords] = box("ear.chords");
    parts = {
      head: practice.head(open),
      slow,
      chords,
      hear: element("button", { class: "main", "aria-pressed": "false", onclick: () => (parts.hear.getAttribute("aria-pressed") === "true" ? practice.sound.stop() : hear()) }, say("ear.hear")),
      bars: element("span", { class: "row" }),
      next: element("button", { onclick: () => show([next()]) }),
      listen: element("button", { "aria-pressed": "false", onclick: listen }, say("ear.listen")),
      found: element("p", { role: "status" }),
      now: element("p", { class: "quiet", "aria-hidden": "true" }),
      notes: element("ol", { class: "heard-notes" }),
      score: element("div", { class: "paper" }),
    };
    score = practice.score(parts.score);
    const step = (row, ...rest) => element("li", {}, element("h2", {}, say(row)), element("p", {}, say(`${row}.says`)), ...rest);
    return element(
      "section",
      {},
      element("h1", { class: "unseen" }, say("screen.ear")),
      parts.head,
      element("p", { class: "quiet" }, say("ear.says")),
      element(
        "ol",
        { class: "steps" },
        step("ear.hear", element("div", { class: "row" }, parts.hear, slowly, withChords), element("div", { class: "row" }, parts.bars)),
        step("ear.sing", element("button", { onclick: firstNote }, say("ear.first"))),
        step("ear.find", element("p", { class: "quiet" }, say("ear.listen.says")), element("div", { class: "row" }, parts.listen, parts.now), parts.notes, parts.found),
        element("li", {}, element("h2", {}, say("ear.see")), element("div", { class: "row" }, parts.next,
          element("button", { onclick: () => show(all()) }, say("ear.see.all")),
          element("button", { onclick: () => { shown = new Set(); cover(); } }, say("ear.see.none")))),
      ),
      parts.score,
    );
  }

  function show(bars) {
    for (const bar of bars) shown.add(bar);
    cover();
  }

  practice.screens.push({
    name: "ear",
    word: "practice.screen.ear",
    element: build,
    opened: () => {
      practice.opening = open();
    },
    closed: () => {
      practice.sound.stop();
      if (ears) listen();
    },
  });
})();
