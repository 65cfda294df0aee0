// What to practise now: a plan of so many minutes from what is known of every phrase in every key.
//
// An item is a phrase in a concert key. How well it is remembered is the library's business (memory_model.js): from
// the days between visits and how each went it says how likely the item is to come back today. What a hand needs
// beside that is ours: a tempo for each item that grows and falls with the answers, a first day of several short
// visits, and new keys mixed with old ones.
//
// Sources. Memory: Ye, Su and Cao 2022, KDD, and version 6 of the open model that follows it, with that model's
// weights; they were fitted to things that are known, not to things that are played: nobody has fitted them to
// music. Mixed rather than blocked: Shea and Morgan 1979, J. Exp. Psych.: Human Learning and Memory 5:179-187 (from
// memory); Carter and Grahn 2016, Frontiers in Psychology 7:1251 (the abstract), clarinettists. Rests: common
// practice of teachers. Every other figure of this file is ours; docs/practice-plan.md shows what it comes to.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  /** What the student may say, what it is to the model (1 to 4), and what it does to the next tempo. */
  const ANSWERS = [
    { said: "apart", outcome: 1, step: 0.85 },
    { said: "slips", outcome: 2, step: 1.0 },
    { said: "clean", outcome: 3, step: 1.08 },
    { said: "sang", outcome: 4, step: 1.15 },
  ];
  /** Gone on without a word, by a pedal: counts as played with slips, so that the item comes back soon. */
  const WENT_ON = { said: "on", outcome: 2, step: 1.0 };
  const RULES = {
    /** The chance of recall at which an item comes back. */
    wanted: 0.9,
    /** Tempos as shares of the phrase's own. */
    firstTempo: 0.6, leastTempo: 0.4, warmTempo: 0.6,
    /** From this share on an item is at tempo; an answer counts in full from this share of the tempo asked for. */
    atTempo: 0.97,
    /** Below its tempo an item comes back at the latest after so many days: [share of the tempo, days]. */
    atTheLatest: [[0.7, 2], [0.85, 4], [0.97, 8]],
    /** Rounds of a visit, and the seconds of one: turning the page, breathing, saying how it went. */
    rounds: { new: 5, back: 3, old: 3 }, aroundVisit_s: 12, leastVisit_s: 40, mostVisit_s: 180,
    /** How often a new item comes on its first day: the first visit, and so many more; most of any item in a day. */
    back: 2, mostVisits: 6,
    /** At most one new item in so many minutes. */
    minutesForNew: 6,
    /** How many phrases are open at a time: their keys come in turn. */
    open: 3,
    /** The share of the playing that new items may have while old ones wait; what these leave is theirs too. */
    newShare: 0.25,
    /** The warm-up: a share of the minutes, at least and at most so many seconds. */
    warmShare: 0.1, leastWarm_s: 30, mostWarm_s: 300,
    /** After so much playing comes a rest; every third rest is a long one. */
    stretch_s: 600, rest_s: 90, longRest_s: 300, longRestEvery: 3,
  };

  const answerOf = (said) => [...ANSWERS, WENT_ON].find((one) => one.said === said) ?? null;
  const idOf = (phrase, key) => `${phrase} ${practice.planParts.tonic(key)}`;
  const bounded = (value, least, most) => Math.min(most, Math.max(least, value));

  /** Every phrase in every key of the book, in the book's order. */
  function itemsOf(book) {
    return book.phrases.flatMap((phrase, number) =>
      phrase.keys.map(({ key }, place) => ({
        id: idOf(phrase.id, key),
        phrase: phrase.id,
        key,
        tonic: practice.planParts.tonic(key),
        goal: phrase.tempo,
        quarters: phrase.quarters ?? phrase.bars * 4,
        bars: phrase.bars,
        number,
        place,
      })),
    );
  }

  /**
   * What a visit leaves behind. Tempo is the grade: what was asked for and played clean counts in full, the same
   * more slowly counts as played with slips. A visit without an answer changes nothing but the count.
   *
   * @param {?object} before what was known: {memory, day, reached, next, visits, firstDay}, null before the first
   * @param {{day: number, tempo: number, asked: ?number, said: ?string}} visit
   */
  function learnt(before, visit) {
    const counted = { visits: (before?.visits ?? 0) + 1, firstDay: before?.firstDay ?? visit.day };
    const answer = answerOf(visit.said);
    const known = before ?? { memory: null, day: visit.day, reached: 0, next: null };
    if (!answer) return { ...known, ...counted };
    const { tempo } = visit;
    const asked = visit.asked ?? known.next ?? tempo;
    const slower = tempo < RULES.atTempo * asked;
    const outcome = answer.outcome >= 3 && slower ? answer.outcome - 1 : answer.outcome;
    const days = Math.max(0, visit.day - known.day);
    return {
      ...counted,
      memory: practice.memoryModel.after(known.memory, days, outcome),
      day: visit.day,
      reached: reachedAfter(known.reached, tempo, answer),
      next: tempo * answer.step,
    };
  }

  /** The tempo at which an item is clean: it grows with a clean visit, and falls when it slipped at or below. */
  function reachedAfter(reached, tempo, answer) {
    if (answer.outcome >= 3) return Math.max(reached, tempo);
    if (tempo > reached) return reached;
    return tempo * (answer.outcome === 2 ? 0.95 : answer.step);
  }

  /** What is known of every item, by its id, from all visits; they may come in any order. */
  function fold(visits) {
    const found = new Map();
    for (const visit of [...visits].sort((one, two) => one.at - two.at || (one.id < two.id ? -1 : 1))) {
      const id = idOf(visit.phrase, visit.key);
      found.set(id, learnt(found.get(id) ?? null, visit));
    }
    return found;
  }

  /** The chance that an item comes back today, 0 to 1. */
  function recall(state, day) {
    return state?.memory ? practice.memoryModel.recall(Math.max(0, day - state.day), state.memory.stability) : 0;
  }

  const shareOf = (state, goal) => (state ? state.reached / goal : 0);

  /** The day on which an item comes back: when it would fade, and sooner while it is below its tempo. */
  function dueOn(state, goal) {
    const days = practice.memoryModel.days(state.memory.stability, RULES.wanted);
    const row = RULES.atTheLatest.find(([share]) => shareOf(state, goal) < share);
    return state.day + (row ? Math.min(days, row[1]) : days);
  }

  /** The tempo to ask for today, in quarters a minute: the next one, slower the more has faded. */
  function tempoFor(state, goal, day) {
    if (!state?.next) return Math.round(goal * RULES.firstTempo);
    const faded = Math.min(1, recall(state, day) / RULES.wanted);
    return Math.round(bounded(state.next * (0.7 + 0.3 * faded), goal * RULES.leastTempo, goal));
  }

  /** How long a visit takes: a bar of count-in, its rounds, and what is around them; seconds. */
  function secondsOf(item, tempo, kind) {
    const quarters = item.quarters * RULES.rounds[kind] + item.quarters / item.bars;
    return Math.round(
      bounded(RULES.aroundVisit_s + (quarters * 60) / tempo, RULES.leastVisit_s, RULES.mostVisit_s),
    );
  }

  /** Stretches of playing with rests between them that fill a time exactly: [{play} or {rest}], seconds. */
  function stretchesOf(seconds) {
    const found = [];
    let left = seconds;
    for (let count = 1; left > 0; count += 1) {
      const rest = count % RULES.longRestEvery ? RULES.rest_s : RULES.longRest_s;
      // A last stretch shorter than the rest before it is not worth the rest: the playing goes on into it.
      const play = left <= RULES.stretch_s + rest * 2 ? left : RULES.stretch_s;
      found.push({ play });
      left -= play;
      if (left > 0) {
        found.push({ rest });
        left -= rest;
      }
    }
    return found;
  }

  /** The items that wait, the most faded first; see docs/practice-plan.md for why in this order. */
  function waiting(items, known, day) {
    return items
      .filter((item) => known.get(item.id)?.memory && dueOn(known.get(item.id), item.goal) <= day)
      .map((item) => [item, recall(known.get(item.id), day)])
      .sort((one, two) => one[1] - two[1] || one[0].number - two[0].number || one[0].place - two[0].place)
      .map(([item]) => item);
  }

  /** New items: the keys of the open phrases in turn, so that neither a key nor a phrase comes in a block. */
  function unknown(items, known) {
    const phrases = new Map();
    for (const item of items) {
      if (!phrases.has(item.phrase)) phrases.set(item.phrase, []);
      if (!known.get(item.id)?.memory) phrases.get(item.phrase).push(item);
    }
    const queues = [...phrases.values()].filter((queue) => queue.length);
    const found = [];
    const open = queues.splice(0, RULES.open);
    while (open.length) {
      const queue = open.shift();
      found.push(queue.shift());
      if (queue.length) open.push(queue);
      else if (queues.length) open.push(queues.shift());
    }
    return found;
  }

  /** Items that are known and do not wait: those farthest below their tempo first, then those that fade soonest. */
  function early(items, known, day) {
    const share = (item) => Math.min(1, shareOf(known.get(item.id), item.goal));
    return items
      .filter((item) => {
        const state = known.get(item.id);
        return state?.memory && state.day < day && dueOn(state, item.goal) > day;
      })
      .sort(
        (one, two) =>
          share(one) - share(two) || recall(known.get(one.id), day) - recall(known.get(two.id), day),
      );
  }

  /** The visits of a day that fit into so many seconds of playing: [{kind, item, tempo, seconds}]. */
  function chosen({ items, known, day, seconds, minutes, sheet }) {
    const asked = sheet ? items.filter((item) => sheet.has(item.id)) : items;
    const others = sheet ? items.filter((item) => !sheet.has(item.id)) : [];
    const old = [...waiting(asked, known, day), ...waiting(others, known, day)];
    // A teacher's sheet is this week's new work; other new items wait until it is over, but for a sheet so short
    // that nothing could be mixed with it.
    const wanted = [...unknown(asked, known), ...(asked.length + old.length < RULES.open ? unknown(others, known) : [])];
    const fresh = wanted.slice(0, Math.max(1, Math.ceil(minutes / RULES.minutesForNew)));
    const found = [];
    let left = seconds;
    const visit = (item, kind) => {
      const tempo = tempoFor(known.get(item.id), item.goal, day);
      return { kind, item, tempo, seconds: secondsOf(item, tempo, kind) };
    };
    const sum = (visits) => visits.reduce((whole, one) => whole + one.seconds, 0);
    const take = (visits) => {
      if (sum(visits) > left) return false;
      found.push(...visits);
      left -= sum(visits);
      return true;
    };
    const firstDay = (item, back) => [visit(item, "new"), ...Array(back).fill(visit(item, "back"))];
    const takeNew = (upTo) => {
      const least = left - upTo;
      for (let back = RULES.back; back > 0; back -= 1) {
        while (fresh.length && left - sum(firstDay(fresh[0], back)) >= least && take(firstDay(fresh[0], back))) fresh.shift();
      }
    };
    const oldSeconds = old.reduce((whole, item) => whole + visit(item, "old").seconds, 0);
    // After days off the old ones have the day: nothing is added to what waits until it fits again.
    if (oldSeconds < seconds) takeNew(Math.max(seconds * RULES.newShare, seconds - oldSeconds));
    for (const item of old) take([visit(item, "old")]);
    for (const item of [...early(asked, known, day), ...early(others, known, day)]) {
      if (!take([visit(item, "old")])) break;
    }
    if (!found.length && fresh.length) take([visit(fresh[0], "new")]);
    // What is left goes to further visits, where the tempo has farthest to go.
    const share = (one) => Math.min(1, shareOf(known.get(one.item.id), one.item.goal));
    const once = [...new Map(found.map((one) => [one.item.id, one])).values()].sort((one, two) => share(one) - share(two));
    for (let turn = 1; turn < RULES.mostVisits; turn += 1) {
      for (const one of once) {
        if (found.filter(({ item }) => item.id === one.item.id).length <= turn) take([visit(one.item, "back")]);
      }
    }
    return found;
  }

  /**
   * The visits in an order in which neither a phrase nor a key comes twice running where that can be, and the
   * visits of one item lie as far apart as they can.
   */
  function mixed(visits) {
    const left = [...visits];
    const found = [];
    const gap = new Map();
    for (const one of visits) gap.set(one.item.id, (gap.get(one.item.id) ?? 0) + 1);
    const cost = (one) => {
      const last = found.map((before) => before.item.id).lastIndexOf(one.item.id);
      const since = last < 0 ? Infinity : found.length - last;
      const wanted = visits.length / gap.get(one.item.id);
      const before = found[found.length - 1]?.item;
      // An item of several visits comes first early on, so that its later ones have room.
      const soon = since === Infinity ? (gap.get(one.item.id) > 1 ? -1 : 0) : 0;
      return (
        (since < 2 ? 100 : 0) + (since < 3 ? 20 : 0) + Math.max(0, wanted - since) +
        (before?.tonic === one.item.tonic ? 8 : 0) + (before?.phrase === one.item.phrase ? 8 : 0) +
        (before && found[found.length - 1].kind === "new" && one.kind === "new" ? 3 : 0) + soon
      );
    };
    while (left.length) {
      let best = 0;
      for (let at = 1; at < left.length; at += 1) if (cost(left[at]) < cost(left[best])) best = at;
      found.push(...left.splice(best, 1));
    }
    // The first visit of an item to come is its new or old one, whichever of them was taken.
    const unseen = new Set(visits.filter((one) => one.kind === "new").map((one) => one.item.id));
    const met = new Set();
    return found.map((one) => {
      const first = unseen.has(one.item.id) ? "new" : "old";
      const kind = met.has(one.item.id) ? "back" : first;
      met.add(one.item.id);
      return one.kind === kind ? one : { ...one, kind, seconds: secondsOf(one.item, one.tempo, kind) };
    });
  }

  /** The item to warm up with: at its tempo, or as near as any, and likely to come back; a different one each day. */
  function warmItem(items, known, day) {
    const sure = items
      .filter((item) => known.get(item.id)?.reached)
      .map((item) => [item, Math.min(1, shareOf(known.get(item.id), item.goal)) * recall(known.get(item.id), day)])
      .sort((one, two) => two[1] - one[1])
      .slice(0, 12);
    return sure.length ? sure[day % sure.length][0] : null;
  }

  /**
   * The plan of a day: its parts one after the other, never longer than the minutes asked for.
   *
   * @param {{book: object, known: Map, day: number, minutes: number, sheet: ?Set<string>}} asked
   * @returns {{day, minutes, seconds, parts: [{kind: "warm"|"new"|"back"|"old"|"rest", phrase, key, tempo, at, seconds}]}}
   */
  function plan({ book, known, day, minutes, sheet = null }) {
    const items = itemsOf(book);
    const whole = Math.floor(minutes * 60);
    const warm_s = Math.round(bounded(whole * RULES.warmShare, Math.min(RULES.leastWarm_s, whole), RULES.mostWarm_s));
    const stretches = stretchesOf(whole - warm_s);
    const playing = stretches.reduce((sum, one) => sum + (one.play ?? 0), 0);
    const visits = mixed(chosen({ items, known, day, seconds: playing, minutes, sheet }));
    const parts = [];
    let at = 0;
    const put = (part, seconds) => {
      parts.push({ ...part, at, seconds });
      at += seconds;
    };
    const warm = warmItem(items, known, day);
    const warmTempo = warm && Math.round(Math.max(known.get(warm.id).reached * RULES.warmTempo, warm.goal * RULES.leastTempo));
    put({ kind: "warm", phrase: warm?.phrase ?? null, key: warm?.key ?? null, tempo: warmTempo }, warm_s);
    for (const stretch of stretches) {
      if (!visits.length) break;
      if (stretch.rest) {
        put({ kind: "rest", phrase: null, key: null, tempo: null }, stretch.rest);
        continue;
      }
      let left = stretch.play;
      while (visits.length && visits[0].seconds <= left) {
        const { kind, item, tempo, seconds } = visits.shift();
        put({ kind, phrase: item.phrase, key: item.key, tempo }, seconds);
        left -= seconds;
      }
    }
    while (parts.length > 1 && parts[parts.length - 1].kind === "rest") at -= parts.pop().seconds;
    return { day, minutes, seconds: at, parts };
  }

  // The plan that runs. Its clock stands while the page is not to be seen, and while it is asked to.

  let running = null;

  /** Seconds that the running plan has taken so far. */
  function elapsed(now = Date.now()) {
    return running ? (running.spent_ms + (running.since === null ? 0 : now - running.since)) / 1000 : 0;
  }

  function keep() {
    practice.progress?.store.set("running", running);
  }

  function start(found, now = Date.now()) {
    running = { ...found, place: 0, spent_ms: 0, since: now, partFrom_s: 0 };
    keep();
    return current();
  }

  /** Go on with a plan that was kept when the page was closed. */
  function resume(kept, day) {
    running = kept && kept.day === day && Array.isArray(kept.parts) ? { ...kept, since: null } : null;
    return running;
  }

  function pause(now = Date.now()) {
    if (running && running.since !== null) {
      running = { ...running, spent_ms: running.spent_ms + now - running.since, since: null };
      keep();
    }
  }

  function goOn(now = Date.now()) {
    if (running && running.since === null) {
      running = { ...running, since: now };
      keep();
    }
  }

  function stop() {
    running = null;
    keep();
  }

  /** The part at which the running plan is, or null. */
  function current() {
    return running ? (running.parts[running.place] ?? null) : null;
  }

  /** Give what is still to come of an item the tempo that its last answer leads to. */
  function retempo(known) {
    if (!running) return;
    const items = new Map(itemsOf(practice.book).map((item) => [item.id, item]));
    const parts = running.parts.map((part, place) => {
      const item = part.phrase && part.kind !== "warm" && place > running.place && items.get(idOf(part.phrase, part.key));
      return item ? { ...part, tempo: tempoFor(known.get(item.id), item.goal, running.day) } : part;
    });
    running = { ...running, parts };
    keep();
  }

  /** Leave the part in hand; the next one that the minutes still hold, a rest too, or null at the end. */
  function move(now = Date.now()) {
    if (!running) return null;
    const left = running.minutes * 60 - elapsed(now);
    let place = running.place + 1;
    const fits = (part) => part.seconds <= left + 1;
    while (place < running.parts.length && !fits(running.parts[place])) place += 1;
    if (running.parts[place]?.kind === "rest" && !running.parts[place + 1]) place += 1;
    running = { ...running, place, partFrom_s: elapsed(now) };
    keep();
    return current();
  }

  /**
   * Leave the part in hand, without a word on how it went, and return what comes next: {phrase, key, tempo}. Null where
   * none runs, where a rest comes or the plan is over: then the plan's own screen has something to say.
   */
  function next() {
    if (!running) return null;
    if (practice.progress?.wentOn(WENT_ON.said)) retempo(practice.progress.known());
    const part = move();
    return part && part.phrase && part.kind !== "rest" ? { phrase: part.phrase, key: part.key, tempo: part.tempo } : null;
  }

  practice.schedule = {
    ANSWERS, RULES, idOf, itemsOf, learnt, fold, recall, shareOf, dueOn, tempoFor, stretchesOf, mixed, plan,
    start, resume, pause, goOn, stop, current, move, next, retempo, elapsed,
    get running() { return running; },
  };
})();
