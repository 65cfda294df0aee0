// A copy of what was practised, as a text file: how it is written, how it is read, and how two are brought together.
//
// One line of JSON for each thing: first what the file is, then a line for each visit and each kept value, last how
// many lines there were. So a file that was cut short is read up to the cut, and a line that is damaged costs that
// line alone. What a newer page wrote and this one does not know is carried along as it stands. Two copies are
// brought together as sets: nothing that is here goes away.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const FORMAT = 1;
  const HEAD = "practice";
  const LEAST_AT = Date.UTC(2000, 0, 1);
  const TEMPOS = [10, 600];
  const MOST_LETTERS = 20_000_000;

  const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  const isText = (value, most) => typeof value === "string" && value.length > 0 && value.length <= most;

  /** A visit as it may be kept, or null where it is none; fields that are not known stay. */
  function visitOf(value) {
    if (!isObject(value)) return null;
    const { id, at, phrase, key, tempo, rounds, asked, said } = value;
    const sound =
      isText(id, 80) && isText(phrase, 200) && isText(key, 20) && practice.planParts.tonic(key) !== null &&
      Number.isFinite(at) && at >= LEAST_AT && at <= Date.now() + 2 * 86_400_000 &&
      Number.isFinite(tempo) && tempo >= TEMPOS[0] && tempo <= TEMPOS[1];
    if (!sound) return null;
    return {
      ...value,
      rounds: Number.isFinite(rounds) && rounds >= 0 ? rounds : 0,
      asked: Number.isFinite(asked) && asked >= TEMPOS[0] && asked <= TEMPOS[1] ? asked : null,
      said: typeof said === "string" ? said : null,
    };
  }

  /** A kept value with its name and when it was set, or null. */
  function valueOf(value) {
    return isObject(value) && isText(value.name, 100) && "value" in value
      ? { name: value.name, value: value.value, changed: Number.isFinite(value.changed) ? value.changed : 0 }
      : null;
  }

  /**
   * A copy as a text.
   *
   * @param {{visits: object[], values: object[], carried: string[]}} kept
   */
  function write(kept) {
    const { id, title, version } = practice.book;
    const head = { [HEAD]: FORMAT, book: id, title, edition: version, made: new Date().toISOString() };
    const lines = [
      ...kept.visits.map((visit) => JSON.stringify({ visit })),
      ...kept.values.map((value) => JSON.stringify({ value })),
      ...kept.carried,
    ];
    return `${[JSON.stringify(head), ...lines, JSON.stringify({ end: lines.length })].join("\n")}\n`;
  }

  /** Whether a name is that of this book, now or in an earlier page. */
  const isThisBook = (name) => name === practice.book.id || (practice.book.before ?? []).includes(name);

  function parsed(line) {
    try {
      const value = JSON.parse(line);
      return isObject(value) ? value : null;
    } catch {
      return null;
    }
  }

  /**
   * What a text holds. `wrong` is "" or why nothing of it is to be used: "not" (no such file), "book" (another's),
   * "long". `bad` are the numbers of lines that could not be read; `cut` says that the end is missing.
   *
   * @returns {{wrong: string, head: ?object, visits: object[], values: object[], carried: string[], bad: number[],
   *   cut: boolean, newer: boolean}}
   */
  function read(text) {
    const found = { wrong: "", head: null, visits: [], values: [], carried: [], bad: [], cut: true, newer: false };
    if (text.length > MOST_LETTERS) return { ...found, wrong: "long" };
    const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
    lines.forEach((line, place) => {
      if (!line.trim()) return;
      const value = parsed(line);
      if (value && HEAD in value && !found.head) found.head = value;
      else if (value && "end" in value) found.cut = false;
      else if (value && "visit" in value) put(found.visits, visitOf(value.visit), found.bad, place);
      else if (value && "value" in value) put(found.values, valueOf(value.value), found.bad, place);
      else if (value && found.head) found.carried.push(line);
      else found.bad.push(place + 1);
    });
    found.newer = Number(found.head?.[HEAD]) > FORMAT;
    found.wrong = refusal(found);
    return found;
  }

  function put(list, value, bad, place) {
    if (value) list.push(value);
    else bad.push(place + 1);
  }

  /** Why a file is not to be used. One whose first line is lost is, if its phrases are those of this book. */
  function refusal({ head, visits }) {
    if (head) return isThisBook(head.book) ? "" : "book";
    const phrases = new Set(practice.book.phrases.map((one) => one.id));
    return visits.length && visits.every((one) => phrases.has(one.phrase)) ? "" : "not";
  }

  /** Which of two records of one visit stays: the one that says how it went, else the one with more rounds. */
  function better(one, two) {
    if (Boolean(one.said) !== Boolean(two.said)) return one.said ? one : two;
    return two.rounds > one.rounds ? two : one;
  }

  /** Two values of one name: inside of objects all names of both; where they differ, the newer. */
  function merged(here, there, thereIsNewer) {
    if (!isObject(here) || !isObject(there)) return thereIsNewer ? there : here;
    const found = { ...here };
    for (const [name, value] of Object.entries(there)) {
      found[name] = Object.hasOwn(here, name) ? merged(here[name], value, thereIsNewer) : value;
    }
    return found;
  }

  /**
   * What a file adds to what is here: the records to be written.
   *
   * @returns {{visits: object[], values: object[], carried: string[]}}
   */
  function additions(here, there) {
    const had = new Map(here.visits.map((one) => [one.id, one]));
    const visits = new Map();
    for (const visit of there.visits) {
      const before = visits.get(visit.id) ?? had.get(visit.id);
      const kept = before ? better(before, visit) : visit;
      if (kept !== before) visits.set(visit.id, kept);
    }
    const named = new Map(here.values.map((one) => [one.name, one]));
    const values = there.values
      .map((one) => {
        const before = named.get(one.name);
        if (!before) return one;
        const value = merged(before.value, one.value, one.changed > before.changed);
        return { name: one.name, value, changed: Math.max(one.changed, before.changed) };
      })
      .filter((one) => JSON.stringify(one.value) !== JSON.stringify(named.get(one.name)?.value));
    const lines = new Set(here.carried);
    return { visits: [...visits.values()], values, carried: [...new Set(there.carried)].filter((line) => !lines.has(line)) };
  }

  practice.progressFile = { FORMAT, write, read, additions, merged, visitOf, isThisBook };
})();
