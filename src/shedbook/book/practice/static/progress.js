// What was practised, kept in this browser under the book's own name and sent nowhere.
//
// A visit is one sitting with a phrase in a key: {id, at, phrase, key, tempo, asked, rounds, said}; `at` in
// milliseconds since 1970, tempos in quarters a minute, `key` the concert key, so that another instrument or another
// tuning changes nothing. Visits are only ever added, each under an id of its own: two windows, or two devices whose
// copies are brought together, cannot overwrite one another. What is known of an item is worked out from its visits.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const TABLES = ["visits", "values", "carried"];
  /** A round after so long a pause begins another visit. */
  const SAME_VISIT_MS = 20 * 60_000;
  /** A copy is asked for after so many visits since the last one, or so many days with any; put off for some days. */
  const ASK = { visits: 60, days: 14, later: 7 };
  /** What belongs to this device and goes into no copy. */
  const HERE_ALONE = new Set(["running", "copied", "asked"]);

  const state = { visits: new Map(), known: null, carried: [], pending: null, lasting: true, batch: null };

  // The database of the book. Where the browser has none to give, all is kept until the page is closed, and said.

  let opening = null;
  const memory = new Map();

  /** The database, or null; one that a newer page has made is opened as it is. */
  function database(version) {
    return new Promise((found) => {
      let request;
      try {
        request = indexedDB.open(`shedbook practice ${practice.book.id}`, version);
      } catch {
        found(null);
        return;
      }
      request.onupgradeneeded = () => {
        request.result.createObjectStore("visits", { keyPath: "id" });
        request.result.createObjectStore("values", { keyPath: "name" });
        request.result.createObjectStore("carried", { autoIncrement: true });
      };
      request.onsuccess = () => {
        request.result.onversionchange = () => request.result.close();
        found(request.result);
      };
      request.onerror = () => found(request.error.name === "VersionError" ? database() : null);
    });
  }

  function open() {
    opening ??= database(1).then(async (found) => {
      state.lasting = found !== null;
      if (found) await takeOver(found).catch(() => {});
      return found;
    });
    return opening;
  }

  const asked = (request) =>
    new Promise((found, failed) => {
      request.onsuccess = () => found(request.result);
      request.onerror = () => failed(request.error);
    });

  /** The database of a name that the book had before, or null; it is not made where it is not there. */
  function earlier(name) {
    return new Promise((found) => {
      const request = indexedDB.open(`shedbook practice ${name}`);
      request.onupgradeneeded = () => request.transaction.abort();
      request.onsuccess = () => found(request.result);
      request.onerror = (event) => {
        event.preventDefault();
        found(null);
      };
    });
  }

  /**
   * What an earlier page of this book kept under another name is taken over, once: the first time that nothing is kept
   * under the name of now. What was kept of no phrase of this book is another book's.
   */
  async function takeOver(database) {
    const counted = database.transaction(TABLES, "readonly");
    const counts = await Promise.all(TABLES.map((name) => asked(counted.objectStore(name).count())));
    if (counts.some((count) => count > 0)) return;
    for (const name of practice.book.before ?? []) {
      const old = await earlier(name);
      if (!old) continue;
      const step = old.transaction(TABLES, "readonly");
      const [visits, values, carried] = await Promise.all(TABLES.map((table) => asked(step.objectStore(table).getAll())));
      old.close();
      const phrases = new Set(practice.book.phrases.map((one) => one.id));
      const chosen = values.find((one) => one.name === "settings")?.value;
      if (!visits.some((one) => phrases.has(one.phrase)) && !phrases.has(chosen?.phrase)) continue;
      const writing = database.transaction(TABLES, "readwrite");
      for (const one of visits) writing.objectStore("visits").put(one);
      for (const one of values) writing.objectStore("values").put(one);
      for (const one of carried) writing.objectStore("carried").add(one);
      await new Promise((found, failed) => {
        writing.oncomplete = found;
        writing.onabort = () => failed(writing.error);
      });
      return;
    }
  }

  /** Do something in one step: all of it is kept, or nothing. */
  async function inOneStep(mode, act) {
    const database = await open();
    if (!database) return null;
    return new Promise((found, failed) => {
      const step = database.transaction(TABLES, mode);
      const result = act(Object.fromEntries(TABLES.map((name) => [name, step.objectStore(name)])));
      step.oncomplete = () => found(result?.result);
      step.onabort = () => failed(step.error);
      step.onerror = () => failed(step.error);
    });
  }

  async function write({ visits = [], values = [], carried = [], gone = [] }) {
    for (const one of values) memory.set(one.name, one);
    try {
      await inOneStep("readwrite", (tables) => {
        for (const one of visits) tables.visits.put(one);
        for (const one of values) tables.values.put(one);
        for (const one of carried) tables.carried.add(one);
        for (const id of gone) tables.visits.delete(id);
      });
    } catch {
      // A full disk: what was kept stays as it was, and the plan's screen says that the newest is not.
      state.lasting = false;
    }
  }

  async function all(table) {
    return (await inOneStep("readonly", (tables) => tables[table].getAll()).catch(() => null)) ?? [];
  }

  const store = {
    /** A kept value by its name, or null. */
    async get(name) {
      const found = await inOneStep("readonly", (tables) => tables.values.get(name)).catch(() => null);
      return (found ?? memory.get(name))?.value ?? null;
    },
    /** Keep a value under a name. */
    set: (name, value) => write({ values: [{ name, value, changed: Date.now() }] }),
  };

  /** Read what is kept, also what another window has added. */
  async function refresh() {
    for (const visit of await all("visits")) {
      const before = state.visits.get(visit.id);
      if (!before || before.said !== visit.said || before.rounds !== visit.rounds) state.known = null;
      state.visits.set(visit.id, visit);
    }
    state.carried = await all("carried");
    return state;
  }

  // Visits.

  const dated = (visit) => ({ ...visit, day: practice.planParts.dayOf(visit.at) });

  /** What is known of every item, by its id. */
  function known() {
    state.known ??= practice.schedule.fold([...state.visits.values()].map(dated));
    return state.known;
  }

  async function keepVisit(visit) {
    state.visits.set(visit.id, visit);
    // A year holds thousands of visits; only those of this item are gone through again.
    const own = [...state.visits.values()].filter((one) => sameItem(one, visit)).map(dated);
    for (const [id, found] of practice.schedule.fold(own)) known().set(id, found);
    await write({ visits: [visit] });
  }

  const newId = (at) => `${at.toString(36)}-${Math.random().toString(36).slice(2, 8)}`;
  const sameItem = (one, two) => one.phrase === two.phrase && practice.planParts.tonic(one.key) === practice.planParts.tonic(two.key);

  /** The visit in hand where it is one of this item, or null. */
  function pending(item) {
    const visit = state.pending;
    return visit && sameItem(visit, item) && Date.now() - visit.last < SAME_VISIT_MS ? visit : null;
  }

  /** Rounds are over: they belong to the visit in hand, or begin one. */
  async function played({ phrase, key, tempo, rounds = 1 }) {
    const at = Date.now();
    const part = practice.schedule.current();
    const asked = part && part.kind !== "rest" && part.phrase && sameItem(part, { phrase, key }) ? part.tempo : null;
    const before = pending({ phrase, key });
    const visit = before
      ? { ...before, tempo, rounds: before.rounds + rounds }
      : { id: newId(at), at, phrase, key, tempo, asked, rounds, said: null };
    state.pending = { ...visit, last: at };
    practice.planScreen?.refresh?.();
    const { last, ...kept } = state.pending;
    await keepVisit(kept);
    navigator.storage?.persist?.().catch(() => {});
  }

  /** Say how the visit in hand went; where nothing was played, the answer is a visit of its own. */
  async function answered(item, said) {
    const at = Date.now();
    const part = practice.schedule.current();
    const asked = part && part.phrase && sameItem(part, item) ? part.tempo : null;
    const { last, ...before } = pending(item) ?? { id: newId(at), at, ...item, asked, rounds: 0, said: null };
    state.pending = null;
    await keepVisit({ ...before, said });
  }

  /** Leave the visit in hand for the next one: rounds that were played count, by the word that is given. */
  function wentOn(said) {
    const { last, ...visit } = state.pending ?? {};
    state.pending = null;
    if (!visit.rounds) return false;
    keepVisit({ ...visit, said });
    return true;
  }

  /** Leave the visit in hand as it is, without an answer. */
  function leave() {
    state.pending = null;
  }

  // Copies.

  async function kept() {
    await refresh();
    const values = (await all("values")).concat(state.lasting ? [] : [...memory.values()]);
    return {
      visits: [...state.visits.values()].sort((one, two) => one.at - two.at),
      values: values.filter((one) => !HERE_ALONE.has(one.name)),
      carried: state.carried,
    };
  }

  /** A copy of all that is kept, as a text. */
  async function copyText() {
    const text = practice.progressFile.write(await kept());
    await store.set("copied", { at: Date.now(), visits: state.visits.size });
    return text;
  }

  /** Bring a copy together with what is here; says what was found, and what of it is new. */
  async function addCopy(text) {
    const found = practice.progressFile.read(text);
    const none = { ...found, added: 0, gone: 0 };
    if (found.wrong) return none;
    const here = await kept();
    const added = practice.progressFile.additions(here, found);
    const before = new Map(here.values.map((one) => [one.name, one]));
    const olds = new Map(here.visits.map((one) => [one.id, one]));
    await write(added);
    state.batch = {
      gone: added.visits.filter((one) => !olds.has(one.id)).map((one) => one.id),
      visits: added.visits.filter((one) => olds.has(one.id)).map((one) => olds.get(one.id)),
      values: added.values.filter((one) => before.has(one.name)).map((one) => before.get(one.name)),
    };
    await refresh();
    const settings = added.values.find((one) => one.name === "settings");
    if (settings && practice.chosen) Object.assign(practice.chosen, settings.value);
    const phrases = new Set(practice.book.phrases.map((one) => one.id));
    const gone = found.visits.filter((one) => !phrases.has(one.phrase)).length;
    return { ...none, added: added.visits.length, gone };
  }

  /** Take back what the last copy brought. */
  async function takeBack() {
    const batch = state.batch;
    state.batch = null;
    if (!batch) return;
    for (const id of batch.gone) state.visits.delete(id);
    state.known = null;
    await write(batch);
    await refresh();
  }

  /** How many visits a copy would be the first to hold, where it is time to ask for one; else 0. */
  async function askForCopy() {
    if (!state.visits.size || (await navigator.storage?.persisted?.().catch(() => false))) return 0;
    const [copied, asked] = await Promise.all([store.get("copied"), store.get("asked")]);
    const now = Date.now();
    const fresh = [...state.visits.values()].filter((one) => one.at > (copied?.at ?? 0)).length;
    const first = Math.min(...[...state.visits.values()].map((one) => one.at));
    const days = (now - Math.max(copied?.at ?? 0, first)) / 86_400_000;
    const putOff = asked && now - asked < ASK.later * 86_400_000;
    return !putOff && fresh && (fresh >= ASK.visits || days >= ASK.days) ? fresh : 0;
  }

  practice.progress = {
    store, refresh, known, pending, played, answered, wentOn, leave, copyText, addCopy, takeBack, askForCopy,
    putOff: () => store.set("asked", Date.now()),
    visits: () => [...state.visits.values()],
    get lasting() { return state.lasting; },
    get canTakeBack() { return Boolean(state.batch); },
  };
})();
