// The text of a phrase on its way to disk: nothing that was typed is lost, and nobody's change is written over.
//
// `base` is what is known to be on disk, `now` what stands on the page. What differs is sent, one request at a
// time; what the workbench answers is the new `base`. While it does not answer, the text is kept here and tried
// again.

import { Gone, Refused, call, notice, told, windowName } from "./page.js";


const SOON_MS = 120;
const AT_LAST_MS = 450;
const AGAIN_MS = 700;

const same = (one, two) => JSON.stringify(one ?? null) === JSON.stringify(two ?? null);

export class Saving {
  /**
   * @param {{file: string, index: number}} ref the phrase
   * @param {object} fields its keys as they are on disk
   * @param {{show: Function, kept: Function, ask: Function}} page what the page does: put the value of a key in
   *   place, say whether everything is on disk, ask whose value shall stand
   */
  constructor(ref, fields, page) {
    this.ref = ref;
    this.base = { ...fields };
    this.now = { ...fields };
    this.page = page;
    this.timer = 0;
    this.first = 0;
    this.running = null;
    this.unsure = {}; // by key, values that were sent and not answered: they may be on disk or not
    this.draft = `draft ${ref.file} ${ref.index}`;
    addEventListener("pagehide", () => this.leave());
    addEventListener("beforeunload", (event) => {
      if (this.dirty && this.failing) event.preventDefault();
    });
  }

  get dirty() {
    return Object.keys({ ...this.base, ...this.now }).some((name) => !same(this.base[name], this.now[name]));
  }

  /** Take a new value of a key; null takes the key away. */
  set(name, value) {
    if (same(this.now[name], value)) return;
    if (value === null) delete this.now[name];
    else this.now[name] = value;
    this.soon();
  }

  soon() {
    this.page.kept(false);
    const now = performance.now();
    if (!this.first) this.first = now;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.save().catch(told), Math.min(SOON_MS, Math.max(0, this.first + AT_LAST_MS - now)));
  }

  changes() {
    const found = {};
    for (const name of new Set([...Object.keys(this.base), ...Object.keys(this.now)])) {
      if (!same(this.base[name], this.now[name])) found[name] = [this.base[name] ?? null, this.now[name] ?? null];
    }
    return found;
  }

  /** Write what differs, and wait until it is on disk. */
  async save() {
    clearTimeout(this.timer);
    this.first = 0;
    while (this.running) await this.running.catch(() => {});
    const changes = this.changes();
    if (!Object.keys(changes).length) {
      this.page.kept(true);
      return;
    }
    this.running = this.send(changes);
    try {
      await this.running;
    } finally {
      this.running = null;
    }
    if (this.dirty && !this.asking) this.soon();
    else this.page.kept(!this.dirty);
  }

  async send(changes) {
    let saved;
    const unsure = this.unsure;
    this.unsure = { ...unsure };
    for (const [name, [, mine]] of Object.entries(changes)) this.unsure[name] = [...(unsure[name] ?? []), mine];
    try {
      saved = await call("save", { ...this.ref, changes });
    } catch (error) {
      this.failing = true;
      this.page.kept(false, error instanceof Gone);
      this.keepDraft();
      if (error instanceof Refused) notice(error.message);
      this.timer = setTimeout(() => this.save().catch(() => {}), AGAIN_MS);
      throw error;
    }
    if (this.failing) notice("");
    this.failing = false;
    this.unsure = {};
    localStorage.removeItem(this.draft);
    for (const [name, [, mine]] of Object.entries(changes)) {
      const there = saved.fields[name] ?? null;
      if (unsure[name]?.some((one) => same(one, there))) {
        this.base[name] = there; // our own, written before the workbench could say so
        continue;
      }
      if (name in saved.conflicts) {
        this.conflict(name, there);
        continue;
      }
      if (same(there, mine)) this.base[name] = there;
      else if (same(this.now[name], mine)) {
        this.base[name] = there; // merged with what somebody else wrote
        this.put(name, there);
      } else this.base[name] = mine; // typed on meanwhile: merged again with the next request
    }
    for (const name of new Set([...Object.keys(saved.fields), ...Object.keys(this.base)])) {
      if (name in changes) continue;
      const there = saved.fields[name] ?? null;
      if (!same(there, this.base[name]) && same(this.base[name], this.now[name])) {
        this.base[name] = there;
        this.put(name, there);
      }
    }
  }

  put(name, value) {
    if (value === null) delete this.now[name];
    else this.now[name] = value;
    if (value === null) delete this.base[name];
    this.page.show(name, value);
  }

  conflict(name, there) {
    this.asking = true;
    this.page.ask(name, there, (mine) => {
      this.asking = false;
      this.base[name] = there;
      if (!mine) this.put(name, there);
      this.soon();
    });
  }

  /** Look at what is on disk now, after somebody else wrote there. */
  take(fields) {
    for (const name of new Set([...Object.keys(fields), ...Object.keys(this.base)])) {
      const there = fields[name] ?? null;
      if (same(there, this.base[name])) continue;
      if (same(this.base[name], this.now[name])) {
        this.base[name] = there;
        this.put(name, there);
      } else if (!this.running && !this.asking) this.soon();
    }
  }

  keepDraft() {
    try {
      localStorage.setItem(this.draft, JSON.stringify({ at: Date.now(), base: this.base, now: this.now }));
    } catch {
      // The page itself still has it.
    }
  }

  /** Return what an earlier window could not save, if there is any. */
  earlier() {
    try {
      const found = JSON.parse(localStorage.getItem(this.draft));
      return found && !same(found.now, this.base) ? found : null;
    } catch {
      return null;
    }
  }

  leave() {
    const changes = this.changes();
    if (!Object.keys(changes).length) return;
    this.keepDraft();
    const body = JSON.stringify({ window: windowName, ...this.ref, changes });
    const headers = { "content-type": "application/json" };
    fetch("/api/save", { method: "POST", headers, body, keepalive: true }).then(
      (answer) => answer.ok && localStorage.removeItem(this.draft),
      () => {},
    );
  }
}

