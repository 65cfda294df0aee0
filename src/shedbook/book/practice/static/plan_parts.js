// What the screens of the plan share: days, times, names of keys, files to keep.
//
// Conventions: a day is a whole number, counted in the student's own time, and turns at four in the morning, for
// who plays at night practises after midnight. A key is named by its concert tonic; `tonic` is that as 0 (C) to 11.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const DAY_TURNS_AT_HOUR = 4;
  const DAY_MS = 86_400_000;
  const STEPS = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

  /** The number of the day on which something was, from milliseconds since 1970. */
  function dayOf(at) {
    const then = new Date(at);
    then.setHours(then.getHours() - DAY_TURNS_AT_HOUR);
    return Math.floor(Date.UTC(then.getFullYear(), then.getMonth(), then.getDate()) / DAY_MS);
  }

  /** A day as the reader's language writes it. */
  function dayText(day, options = { day: "numeric", month: "long", year: "numeric" }) {
    return new Intl.DateTimeFormat(practice.book.language, { ...options, timeZone: "UTC" }).format(day * DAY_MS);
  }

  /** A length in seconds as minutes and seconds: 95 is 1:35. */
  function clock(seconds) {
    const whole = Math.max(0, Math.round(seconds));
    return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
  }

  /** The tonic of a key, 0 to 11, whether it is called "Gb", "F#" or "F# minor"; null where it is no key. */
  function tonic(key) {
    const found = /^([A-G])([#b]{0,2})(?= |$)/.exec(key);
    if (!found) return null;
    const moved = [...found[2]].reduce((sum, sign) => sum + (sign === "#" ? 1 : -1), STEPS[found[1]]);
    return ((moved % 12) + 12) % 12;
  }

  /** What the reader in hand calls a concert tonic: as the book writes it; for an alto player, a C is an A. */
  function tonicName(number) {
    const names = practice.say("progress.tonics").split(" ");
    const phrase = practice.book.phrases.find((one) => one.keys.some(({ key }) => tonic(key) === number));
    if (phrase && practice.keyName) {
      const written = practice.keyName(phrase, phrase.keys.findIndex(({ key }) => tonic(key) === number));
      const name = written.split(/[ \u00a0-]/)[0];
      // Where a language writes minor keys small, a tonic by itself is still written as all others are.
      return names[0] === names[0].toUpperCase() ? name[0].toUpperCase() + name.slice(1) : name;
    }
    return names[(((number + practice.writtenAbove()) % 12) + 12) % 12];
  }

  /** The phrase of a part or visit and the name of its key as the reader in hand reads it: [phrase, name]. */
  function placed({ phrase, key }) {
    const found = practice.book.phrases.find((one) => one.id === phrase);
    const place = found ? found.keys.findIndex((one) => tonic(one.key) === tonic(key)) : -1;
    const name = place >= 0 && practice.keyName ? practice.keyName(found, place) : tonicName(tonic(key));
    return [found ?? null, name];
  }

  /** Offer a text as a file. */
  function offer(name, text) {
    const address = URL.createObjectURL(new Blob([text], { type: "text/plain;charset=utf-8" }));
    const link = practice.element("a", { href: address, download: name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }

  /** A name for a file of this book: small letters, figures and dashes. */
  function fileName(kind) {
    const plain = practice.book.title.normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "");
    const today = new Date(dayOf(Date.now()) * DAY_MS).toISOString().slice(0, 10);
    return `${plain.toLowerCase() || "book"}-${kind}-${today}.txt`;
  }

  practice.planParts = { dayOf, dayText, clock, tonic, tonicName, placed, offer, fileName };
})();
