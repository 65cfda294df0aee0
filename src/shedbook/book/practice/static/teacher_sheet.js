// A teacher's sheet: phrases and keys for a student and some days, as a file or a code that opens in their page.
//
// The code is the sheet as JSON in letters that any message carries, with a sum by which a letter that was lost is
// seen. White space in it does not count, and words may stand around it. Keys are concert keys, so teacher and student
// may hold different instruments.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;

  const FORMAT = 1;
  const MARK = "sheet:";
  const DAYS = [7, 14];
  const MOST_DAYS = 60;
  const MOST_WORDS = 2000;

  // The sheet as a value: {format, book, title, from, days, minutes, words, rows: [{phrase, keys: [key]}]}.

  /** A short sum of a text (FNV-1a, 32 bits), in figures and letters. */
  function sumOf(text) {
    let sum = 0x811c9dc5;
    for (let place = 0; place < text.length; place += 1) sum = Math.imul(sum ^ text.charCodeAt(place), 0x01000193);
    return (sum >>> 0).toString(36).padStart(7, "0");
  }

  function encode(sheet) {
    const bytes = new TextEncoder().encode(JSON.stringify(sheet));
    const letters = btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
    return `${MARK}${letters}.${sumOf(letters)}`;
  }

  function decoded(letters) {
    const bytes = Uint8Array.from(atob(letters.replaceAll("-", "+").replaceAll("_", "/")), (one) => one.charCodeAt(0));
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  }

  /** A sheet as it may be used, or null where a value is none. */
  function sound(value) {
    if (typeof value !== "object" || value === null || !Array.isArray(value.rows)) return null;
    const whole = (number, least, most, usual) => (Number.isInteger(number) && number >= least && number <= most ? number : usual);
    const rows = value.rows.filter((one) => one && typeof one.phrase === "string" && Array.isArray(one.keys)).map((one) => ({
      phrase: one.phrase,
      keys: one.keys.filter((key) => typeof key === "string" && practice.planParts.tonic(key) !== null),
    }));
    const from = whole(value.from, 0, 100_000, null);
    if (typeof value.book !== "string" || from === null || !rows.some((one) => one.keys.length)) return null;
    return {
      format: whole(value.format, 1, 1000, 1), book: value.book, title: String(value.title ?? ""), from,
      days: whole(value.days, 1, MOST_DAYS, DAYS[0]), minutes: whole(value.minutes, 0, 600, 0),
      words: String(value.words ?? "").slice(0, MOST_WORDS), rows,
    };
  }

  /**
   * What a text holds: {sheet, wrong, gone}. `wrong` is "" or why there is no sheet: "not", "damaged", "book" (then
   * `title` says whose). `gone` counts phrases that this edition does not have.
   */
  function read(text) {
    const at = text.indexOf(MARK);
    if (at < 0) return { sheet: null, wrong: text.trim() ? "not" : "empty", gone: 0 };
    const found = /^([\w-]+)\.([0-9a-z]{7})/.exec(text.slice(at + MARK.length).replace(/\s+/g, ""));
    if (!found || sumOf(found[1]) !== found[2]) return { sheet: null, wrong: "damaged", gone: 0 };
    let sheet = null;
    try {
      sheet = sound(decoded(found[1]));
    } catch {
      sheet = null;
    }
    if (!sheet) return { sheet: null, wrong: "damaged", gone: 0 };
    if (!practice.progressFile.isThisBook(sheet.book)) return { sheet: null, wrong: "book", title: sheet.title, gone: 0 };
    const phrases = new Set(practice.book.phrases.map((one) => one.id));
    const gone = sheet.rows.filter((one) => !phrases.has(one.phrase)).length;
    return { sheet: { ...sheet, rows: sheet.rows.filter((one) => phrases.has(one.phrase)) }, wrong: "", gone };
  }

  /** The items that a sheet asks for on a day, or null where it asks for nothing that day. */
  function itemsOn(sheet, day) {
    if (!sheet || day < sheet.from || day >= sheet.from + sheet.days) return null;
    const found = new Set(sheet.rows.flatMap((one) => one.keys.map((key) => practice.schedule.idOf(one.phrase, key))));
    return found.size ? found : null;
  }

  // What the student sees of it.

  function rowsOf(sheet) {
    return element("ul", { class: "sheet-rows" }, sheet.rows.filter((one) => one.keys.length).map((one) => {
      const keys = one.keys.map((key) => practice.planParts.placed({ phrase: one.phrase, key })[1]).join(", ");
      const phrase = practice.book.phrases.find((other) => other.id === one.phrase);
      const to = (name, row) => element("button", { class: "link", "aria-label": `${say(row)}: ${phrase.title}`, onclick: () => practice.show(name, { phrase: one.phrase, key: one.keys[0] }) }, say(row));
      return element("li", {}, element("span", { class: "of-sheet" }, say("teacher.row", { title: phrase.title, keys })), " ", element("span", { class: "ways" }, to("ear", "screen.ear"), to("play", "screen.play")));
    }));
  }

  function daysOf(sheet) {
    const { dayText } = practice.planParts;
    return say("teacher.days", { from: dayText(sheet.from), to: dayText(sheet.from + sheet.days - 1) });
  }

  /** The part of the plan's screen that shows a sheet, or opens one; `changed` is called with the sheet or null. */
  function forStudent(sheet, changed) {
    const day = practice.planParts.dayOf(Date.now());
    if (sheet && day < sheet.from + sheet.days) {
      return element("div", { class: "sheet" }, element("h2", {}, say("teacher.yours")), element("p", { class: "quiet" }, daysOf(sheet)),
        sheet.words ? element("p", { class: "words" }, sheet.words) : null,
        sheet.minutes ? element("p", {}, say("teacher.minutes.says", { n: sheet.minutes })) : null,
        rowsOf(sheet), element("button", { onclick: () => changed(null) }, say("teacher.put away")));
    }
    const told = element("div", { role: "status" });
    const field = element("textarea", { id: "sheet-code", rows: 3, spellcheck: "false", autocapitalize: "off", autocomplete: "off" });
    const file = element("input", { type: "file", id: "sheet-file", accept: ".txt,text/plain" });
    const open = (text) => {
      const found = read(text);
      if (found.wrong) told.replaceChildren(element("p", { class: "wrong" }, say(`teacher.read.${found.wrong}`, { title: found.title, mark: MARK })));
      else if (!found.sheet.rows.some((one) => one.keys.length)) told.replaceChildren(element("p", { class: "wrong" }, say("teacher.read.gone", { n: found.gone })));
      else {
        practice.tell(found.gone ? say("teacher.read.gone", { n: found.gone }) : say("teacher.opened"));
        changed(found.sheet);
      }
    };
    file.addEventListener("change", async () => {
      if (file.files.length) open(await file.files[0].text());
      file.value = "";
    });
    return element("details", { class: "sheet" }, element("summary", {}, say("teacher.have one")),
      element("label", { for: "sheet-code" }, say("teacher.code")), field,
      element("div", { class: "row" }, element("button", { onclick: () => open(field.value) }, say("teacher.open")),
        element("label", { class: "file", for: "sheet-file" }, say("teacher.open file")), file),
      told);
  }

  // What the teacher makes.

  const made = { chosen: new Map(), from: null, days: DAYS[0], minutes: 0, words: "" };
  let parts = null;

  function sheetMade() {
    const rows = practice.book.phrases.filter((one) => made.chosen.get(one.id)?.size).map((one) => ({
      phrase: one.id, keys: one.keys.map(({ key }) => key).filter((key) => made.chosen.get(one.id).has(key)),
    }));
    return { format: FORMAT, book: practice.book.id, title: practice.book.title, from: made.from, days: made.days, minutes: made.minutes, words: made.words.trim(), rows };
  }

  function asText(sheet) {
    const rows = sheet.rows.map((one) => {
      const phrase = practice.book.phrases.find((other) => other.id === one.phrase);
      return say("teacher.row", { title: phrase.title, keys: one.keys.map((key) => practice.planParts.placed({ phrase: one.phrase, key })[1]).join(", ") });
    });
    return [practice.book.title, daysOf(sheet), ...(sheet.words ? [sheet.words] : []), ...rows, "", say("teacher.how"), "", encode(sheet), ""].join("\n");
  }

  function keysOf(phrase) {
    const chosen = made.chosen.get(phrase.id) ?? new Set();
    const boxes = phrase.keys.map(({ key }) => {
      const box = element("input", { type: "checkbox", checked: chosen.has(key), value: key });
      box.addEventListener("change", () => {
        if (box.checked) chosen.add(key);
        else chosen.delete(key);
        made.chosen.set(phrase.id, chosen);
        count();
      });
      return element("label", { class: "check" }, box, practice.planParts.placed({ phrase: phrase.id, key })[1]);
    });
    const all = element("button", { class: "link", onclick: () => {
      const on = boxes.some((label) => !label.firstChild.checked);
      for (const label of boxes) if (label.firstChild.checked !== on) label.firstChild.click();
    } }, say("teacher.all keys"));
    return element("div", { class: "row keys-of" }, boxes, all);
  }

  function phraseRow(phrase) {
    const n = element("span", { class: "quiet" });
    const details = element("details", { "data-phrase": phrase.id }, element("summary", {}, say("plan.phrase", { n: phrase.number, title: phrase.title }), " ", n));
    // A thousand boxes are drawn only where they are asked for.
    details.addEventListener("toggle", () => {
      if (details.open && details.childElementCount === 1) details.append(keysOf(phrase));
    });
    parts.marks.set(phrase.id, n);
    return details;
  }

  function count() {
    const sheet = sheetMade();
    for (const [id, mark] of parts.marks) {
      const size = made.chosen.get(id)?.size ?? 0;
      mark.textContent = size ? say("teacher.keys.n", { n: size }) : "";
    }
    const some = sheet.rows.length > 0;
    parts.code.value = some ? encode(sheet) : "";
    for (const button of parts.out) button.disabled = !some;
    parts.printed.replaceChildren(...(some ? printed(sheet) : []));
  }

  function printed(sheet) {
    const heads = ["phrase", "keys", "tempo", "notes"].map((name) => element("th", { scope: "col" }, say(`teacher.print.${name}`)));
    const rows = sheet.rows.map((one) => {
      const phrase = practice.book.phrases.find((other) => other.id === one.phrase);
      const keys = one.keys.map((key) => practice.planParts.placed({ phrase: one.phrase, key })[1]);
      return element("tr", {}, element("th", { scope: "row" }, say("plan.phrase", { n: phrase.number, title: phrase.title })),
        element("td", {}, keys.join(", ")), element("td", {}, say("plan.at", { n: Math.round(phrase.tempo) })), element("td", {}));
    });
    return [
      element("h2", {}, practice.book.title), element("p", {}, daysOf(sheet)),
      sheet.minutes ? element("p", {}, say("teacher.minutes.says", { n: sheet.minutes })) : "",
      sheet.words ? element("p", { class: "words" }, sheet.words) : "",
      element("table", {}, element("thead", {}, element("tr", {}, heads)), element("tbody", {}, rows)),
      element("p", {}, say("plan.hands")),
    ];
  }

  function field(row, id, input, change) {
    input.id = id;
    input.addEventListener("input", () => {
      change(input.value);
      count();
    });
    return element("label", { class: "line", for: id }, say(row), input);
  }

  function form() {
    const { dayOf } = practice.planParts;
    const dateOf = (day) => new Date(day * 86_400_000).toISOString().slice(0, 10);
    made.from = dayOf(Date.now());
    const from = element("input", { type: "date", value: dateOf(made.from) });
    const days = element("select", {}, DAYS.map((n) => element("option", { value: n }, say("teacher.days.n", { n }))));
    const minutes = element("select", {}, [0, 10, 15, 20, 30, 45, 60].map((n) => element("option", { value: n }, n ? say("plan.minutes.n", { n }) : say("teacher.minutes.free"))));
    const words = element("textarea", { rows: 3, maxlength: MOST_WORDS });
    return element("div", { class: "sheet-form" },
      field("teacher.from", "sheet-from", from, (value) => { made.from = value ? Math.floor(Date.parse(`${value}T00:00:00Z`) / 86_400_000) : dayOf(Date.now()); }),
      field("teacher.for", "sheet-days", days, (value) => { made.days = Number(value); }),
      field("teacher.minutes", "sheet-minutes", minutes, (value) => { made.minutes = Number(value); }),
      field("teacher.words", "sheet-words", words, (value) => { made.words = value; }));
  }

  async function copy() {
    parts.code.select();
    try {
      await navigator.clipboard.writeText(parts.code.value);
    } catch {
      document.execCommand("copy");
    }
    practice.tell(say("teacher.copied"));
    parts.said.textContent = say("teacher.copied");
  }

  function build() {
    parts = {
      marks: new Map(),
      code: element("textarea", { id: "sheet-made", rows: 3, readonly: true, spellcheck: "false" }),
      printed: element("div", { class: "printed" }),
      said: element("p", { class: "quiet" }),
    };
    parts.out = [
      element("button", { class: "main", disabled: true, onclick: copy }, say("teacher.copy")),
      element("button", { disabled: true, onclick: () => practice.planParts.offer(practice.planParts.fileName("sheet"), asText(sheetMade())) }, say("teacher.save")),
      element("button", { disabled: true, onclick: () => window.print() }, say("teacher.print")),
    ];
    return element("section", { id: "screen-teacher", class: "screen" },
      element("div", { class: "not-printed" },
        element("h1", {}, say("teacher.title")), element("p", {}, say("teacher.says")),
        element("h2", {}, say("teacher.phrases")), element("div", { class: "sheet-phrases" }, practice.book.phrases.map(phraseRow)),
        element("h2", {}, say("teacher.week")), form(),
        element("label", { for: "sheet-made" }, say("teacher.made")), parts.code,
        element("div", { class: "row" }, parts.out), parts.said),
      parts.printed);
  }

  practice.screens.push({ name: "teacher", word: "practice.teacher.screen", title: "practice.teacher.screen", element: build, opened: count, closed() {} });
  practice.teacherSheet = { encode, read, sound, itemsOn, forStudent, asText };
})();
