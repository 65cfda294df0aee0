// The frame of the page: words, data from scripts, the screens and the way from one to another.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  practice.screens = practice.screens || [];

  /** A row of the book's words, its gaps filled; the row's own name where the book has no such row. */
  practice.say = (row, filled = {}) =>
    (practice.book.words[`practice.${row}`] ?? row).replace(/\{(\w+)\}/g, (gap, name) =>
      name in filled ? String(filled[name]) : gap,
    );

  /** An element: attributes by name, "on…" for what is called, then its children, texts or elements. */
  practice.element = (tag, attributes = {}, ...children) => {
    const found = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (name.startsWith("on")) found.addEventListener(name.slice(2), value);
      else if (value === true) found.setAttribute(name, "");
      else if (value !== false && value !== null && value !== undefined) found.setAttribute(name, value);
    }
    found.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ""));
    return found;
  };

  /** Tell a listener what has changed. */
  practice.tell = (text) => {
    document.getElementById("told").textContent = text;
  };

  // Data. Each script calls `put` with a name and a text, or a value as it is; `load` asks for one and gives the value.

  const waiting = new Map();
  const kept = new Map();
  const KEPT_PHRASES = 6;

  practice.put = (name, text, plain = false) => {
    waiting.get(name)?.found({ text, plain });
  };

  practice.bytes = (text) => {
    if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
    const letters = atob(text);
    const found = new Uint8Array(letters.length);
    for (let place = 0; place < letters.length; place += 1) found[place] = letters.charCodeAt(place);
    return found;
  };

  async function unpacked(text) {
    const stream = new Blob([practice.bytes(text)]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
    return JSON.parse(await new Response(stream).text());
  }

  function script(name, file) {
    return new Promise((found, failed) => {
      const tag = document.createElement("script");
      waiting.set(name, { found });
      tag.src = file;
      tag.onload = () => tag.remove();
      tag.onerror = () => failed(new Error(practice.say("missing", { file })));
      document.head.append(tag);
    }).finally(() => waiting.delete(name));
  }

  /** The value of a data script by its name; of phrases the latest few are kept, all else stays. */
  practice.load = (name, { keep = false } = {}) => {
    if (!kept.has(name)) {
      const file = `${name.replaceAll(" ", "-")}.js`;
      const value = script(name, file).then(({ text, plain }) => (typeof text !== "string" ? text : plain ? practice.bytes(text).buffer : unpacked(text)));
      value.catch(() => kept.delete(name));
      kept.set(name, value);
    }
    const value = kept.get(name);
    if (!keep) {
      kept.delete(name);
      kept.set(name, value);
      const phrases = [...kept.keys()].filter((one) => one.startsWith("scores/") || one.startsWith("played/") || one.startsWith("timed/"));
      for (const old of phrases.slice(0, -3 * KEPT_PHRASES)) kept.delete(old);
    }
    return value;
  };

  // What the reader has chosen, kept through the book's store.

  practice.chosen = {
    instrument: "",
    phrase: "",
    key: "",
    share: 70,
    heard: { line: true, bass: true, comping: true, drums: true, click: false, count: true },
    source: "",
    rounds: 0,
    faster: 0,
    tuning: 440,
    theme: "",
    lines: {},
  };

  practice.remember = () => practice.progress.store.set("settings", practice.chosen);

  practice.instrument = () =>
    practice.book.instruments.find((one) => one.slug === practice.chosen.instrument) || practice.book.instruments[0];

  /** By how many half steps the reader's part is written above what sounds. */
  practice.writtenAbove = () => practice.instrument().shift;

  const STEPS = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

  /** The pitch class of a tonic, 0 for C, by whichever name it goes: another edition of the book may say Db for C#. */
  practice.pitchClass = (name) => {
    const moved = [...name.slice(1)].reduce((sum, sign) => sum + (sign === "#" ? 1 : sign === "b" ? -1 : 0), STEPS[name[0]] ?? 0);
    return ((moved % 12) + 12) % 12;
  };

  practice.phrase = (id) => practice.book.phrases.find((one) => one.id === id);

  // Screens.

  const open = { name: "", screen: null };

  /** Open a screen. The request may name phrase, key and tempo; what it does not name stays. */
  practice.show = (name, request = {}) => {
    const screen = practice.screens.find((one) => one.name === name);
    if (!screen) return;
    if (request.phrase && practice.phrase(request.phrase)) practice.chosen.phrase = request.phrase;
    if (request.key) practice.chosen.key = request.key;
    if (request.tempo) {
      practice.chosen.share = Math.min(120, Math.max(40, Math.round((100 * request.tempo) / practice.phrase(practice.chosen.phrase).tempo)));
    }
    if (open.screen && open.screen !== screen) open.screen.closed?.();
    for (const section of document.querySelectorAll("main > .screen")) section.hidden = section.id !== `screen-${name}`;
    for (const link of document.querySelectorAll("#screens a")) {
      if (link.dataset.screen === name) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    open.name = name;
    open.screen = screen;
    screen.opened?.(request);
    document.title = `${practice.say(screen.word.replace("practice.", ""))} – ${practice.book.title}`;
  };

  practice.shown = () => open.name;

  practice.build = () => {
    const main = document.getElementById("main");
    const links = document.getElementById("screens");
    links.setAttribute("aria-label", practice.say("screens"));
    for (const screen of practice.screens) {
      const section = screen.element();
      section.id = `screen-${screen.name}`;
      section.classList.add("screen");
      section.hidden = true;
      if (section.parentElement !== main) main.append(section);
      links.append(
        practice.element(
          "a",
          {
            href: `#${screen.name}`,
            "data-screen": screen.name,
          },
          practice.say(screen.word.replace("practice.", "")),
        ),
      );
    }
    for (const found of document.querySelectorAll("[data-word]")) {
      found.textContent = practice.say(found.dataset.word.replace("practice.", ""));
    }
    addEventListener("hashchange", () => {
      const name = location.hash.slice(1);
      if (name !== practice.shown() && practice.screens.some((one) => one.name === name)) {
        practice.show(name);
        document.getElementById("main").focus({ preventScroll: true });
        scrollTo(0, 0);
      }
    });
  };
})();
