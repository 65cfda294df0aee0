// Progress at a glance: every phrase that was begun in twelve keys, the year by its months, and copies to keep.
//
// A key's cell fills like a tide: its level is the tempo at which the key was last clean, a full cell is the phrase's
// own tempo. The edge of the level is a line, dotted where the key is fading; the number says the tempo. So it reads
// in grey, and a day without practice leaves no mark.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;
  const MONTHS_SHOWN = 12;

  let parts = null;

  /** The twelve tonics in the order of the book's own keys. */
  function tonics() {
    const { tonic } = practice.planParts;
    const found = new Set(practice.book.phrases.flatMap((one) => one.keys.map(({ key }) => tonic(key))));
    for (let number = 0; number < 12; number += 1) found.add(number);
    return [...found];
  }

  /** How a key of a phrase stands: {share, tempo, fading}, or null before its first answer. */
  function standing(phrase, key, known, day) {
    const state = known.get(practice.schedule.idOf(phrase.id, key));
    if (!state?.memory) return null;
    return {
      share: Math.min(1, practice.schedule.shareOf(state, phrase.tempo)),
      tempo: Math.round(state.reached),
      fading: practice.schedule.recall(state, day) < practice.schedule.RULES.wanted,
      days: day - state.day,
    };
  }

  function cell(phrase, number, known, day) {
    const key = phrase.keys.find((one) => practice.planParts.tonic(one.key) === number)?.key;
    if (!key) return element("td", { class: "none" });
    const found = standing(phrase, key, known, day);
    const name = practice.planParts.tonicName(number);
    if (!found) {
      return element("td", {}, element("span", { class: "unseen" }, say("progress.cell.none", { key: name })), element("span", { class: "not-yet", "aria-hidden": "true" }, "·"));
    }
    const row = found.fading ? "progress.cell.fading" : "progress.cell";
    const text = say(row, { key: name, n: found.tempo, goal: Math.round(phrase.tempo) });
    const level = element("span", { class: `level${found.fading ? " fading" : ""}${found.share >= practice.schedule.RULES.atTempo ? " full" : ""}`, "aria-hidden": "true" });
    level.style.height = `${Math.round(found.share * 100)}%`;
    return element("td", { title: text }, level, element("span", { class: "number", "aria-hidden": "true" }, found.tempo ? String(found.tempo) : "–"), element("span", { class: "unseen" }, text));
  }

  function rows(phrase, columns, known, day) {
    const title = say("plan.phrase", { n: phrase.number, title: phrase.title });
    return element(
      "tbody",
      {},
      element("tr", { class: "title" }, element("th", { colspan: 12, scope: "rowgroup" },
        element("button", { class: "link", onclick: () => practice.show("play", { phrase: phrase.id }) }, title),
        element("span", { class: "quiet" }, ` ${say("plan.at", { n: Math.round(phrase.tempo) })}`))),
      element("tr", {}, columns.map((number) => cell(phrase, number, known, day))),
    );
  }

  function table(known, day) {
    const begun = practice.book.phrases.filter((phrase) =>
      phrase.keys.some(({ key }) => known.get(practice.schedule.idOf(phrase.id, key))?.memory),
    );
    if (!begun.length) return element("p", {}, say("progress.nothing"));
    const columns = tonics();
    return element(
      "div",
      { class: "tides-frame", role: "region", tabindex: "0", "aria-label": say("progress.table") },
      element(
        "table",
        { class: "tides" },
        element("caption", {}, say("progress.legend")),
        element("thead", {}, element("tr", {}, columns.map((number) => element("th", { scope: "col" }, practice.planParts.tonicName(number))))),
        begun.map((phrase) => rows(phrase, columns, known, day)),
      ),
    );
  }

  function counts(known) {
    const all = practice.schedule.itemsOf(practice.book);
    const met = all.filter((item) => known.get(item.id)?.memory);
    const there = met.filter((item) => practice.schedule.shareOf(known.get(item.id), item.goal) >= practice.schedule.RULES.atTempo);
    return say("progress.counts", { there: there.length, way: met.length - there.length, none: all.length - met.length });
  }

  /** The months with any practice: {month, minutes, begun, there}, the last twelve of them, the latest last. */
  function months() {
    const phrases = new Map(practice.book.phrases.map((one) => [one.id, one]));
    const visits = practice.progress.visits()
      .filter((one) => phrases.has(one.phrase))
      .map((one) => ({ ...one, day: practice.planParts.dayOf(one.at) }))
      .sort((one, two) => one.at - two.at);
    const known = new Map();
    const there = new Set();
    const found = new Map();
    for (const visit of visits) {
      const phrase = phrases.get(visit.phrase);
      const id = practice.schedule.idOf(visit.phrase, visit.key);
      const state = practice.schedule.learnt(known.get(id) ?? null, visit);
      known.set(id, state);
      if (practice.schedule.shareOf(state, phrase.tempo) >= practice.schedule.RULES.atTempo) there.add(id);
      else there.delete(id);
      const month = new Date(visit.day * 86_400_000).toISOString().slice(0, 7);
      const row = found.get(month) ?? { month, day: visit.day, seconds: 0 };
      row.seconds += (visit.rounds * (phrase.quarters ?? phrase.bars * 4) * 60) / visit.tempo;
      row.begun = known.size;
      row.there = there.size;
      found.set(month, row);
    }
    return [...found.values()].slice(-MONTHS_SHOWN);
  }

  function year() {
    const found = months();
    if (!found.length) return null;
    const most = Math.max(...found.map((one) => one.begun));
    return [
      element("h2", { id: "progress-year" }, say("progress.year")),
      element("div", { class: "year-frame", role: "region", tabindex: "0", "aria-labelledby": "progress-year" }, element(
        "table",
        { class: "year" },
        element("thead", {}, element("tr", {}, ["month", "minutes", "begun", "there"].map((name) => element("th", { scope: "col" }, say(`progress.year.${name}`))))),
        element("tbody", {}, found.map((one) => {
          const there = element("td", { class: "tide" }, element("span", { class: "tide-line", "aria-hidden": "true" }), String(one.there));
          there.style.setProperty("--share", one.there / most);
          return element("tr", {},
            element("th", { scope: "row" }, practice.planParts.dayText(one.day, { month: "short", year: "numeric" })),
            element("td", {}, String(Math.round(one.seconds / 60))), element("td", {}, String(one.begun)), there);
        })),
      )),
      element("p", { class: "quiet" }, say("progress.year.says")),
    ];
  }

  // Copies.

  /** Save a copy as a file. */
  async function saveCopy() {
    practice.planParts.offer(practice.planParts.fileName("practice"), await practice.progress.copyText());
    practice.tell(say("progress.copy.saved"));
    parts?.told?.replaceChildren(element("p", {}, say("progress.copy.saved")));
  }

  /** What reading a copy came to, in sentences. */
  function toldOf(found) {
    if (found.wrong === "book") return [say("progress.read.book", { title: found.head.title ?? found.head.book })];
    if (found.wrong) return [say(`progress.read.${found.wrong}`)];
    return [
      say("progress.read", { n: found.visits.length, new: found.added }),
      found.cut && say("progress.read.cut"),
      found.bad.length && say("progress.read.bad", { lines: found.bad.slice(0, 20).join(", ") + (found.bad.length > 20 ? " …" : "") }),
      found.newer && say("progress.read.newer"),
      found.gone && say("progress.read.gone", { n: found.gone }),
    ].filter(Boolean);
  }

  async function bring(text) {
    const found = await practice.progress.addCopy(text);
    await draw();
    parts.told.replaceChildren(...toldOf(found).map((one) => element("p", { class: found.wrong ? "wrong" : null }, one)));
    parts.back.hidden = !(found.added && practice.progress.canTakeBack);
    return found;
  }

  function copies() {
    const file = element("input", { type: "file", id: "copy-file", accept: ".txt,text/plain" });
    file.addEventListener("change", async () => {
      if (!file.files.length) return;
      await bring(await file.files[0].text());
      file.value = "";
    });
    parts.told = element("div", { role: "status", class: "told" });
    parts.back = element("button", { hidden: true, onclick: async () => {
      await practice.progress.takeBack();
      parts.told.replaceChildren(element("p", {}, say("progress.taken back")));
      parts.back.hidden = true;
      await draw();
    } }, say("progress.take back"));
    return element(
      "div",
      { class: "copies" },
      element("h2", {}, say("progress.copies")),
      element("p", {}, say("progress.copies.says")),
      element("div", { class: "row" }, element("button", { onclick: saveCopy }, say("progress.copy.save")),
        element("label", { class: "file", for: "copy-file" }, say("progress.copy.read")), file),
      parts.told,
      parts.back,
    );
  }

  async function draw() {
    await practice.progress.refresh();
    const known = practice.progress.known();
    parts.counts.textContent = counts(known);
    parts.table.replaceChildren(table(known, practice.planParts.dayOf(Date.now())));
    parts.year.replaceChildren(...(year() ?? []));
    parts.short.hidden = practice.progress.lasting;
  }

  function build() {
    parts = {
      counts: element("p", {}),
      table: element("div", {}),
      year: element("div", {}),
      short: element("p", { class: "wrong", hidden: true }, say("progress.not lasting")),
    };
    return element("section", { id: "screen-progress", class: "screen" },
      element("h1", {}, say("progress.title")), parts.short, parts.counts, parts.table, parts.year, copies());
  }

  practice.screens.push({ name: "progress", word: "practice.progress.screen", title: "practice.progress.screen", element: build, opened: draw, closed() {} });
  practice.progressScreen = { saveCopy, months, toldOf };
})();
