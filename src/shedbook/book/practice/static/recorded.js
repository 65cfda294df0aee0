// Recorded tracks that lie beside the page: which there are, and playing one as the sound of the band.
//
// A page that was opened from the disk may not read a track, but an audio element plays it, at any tempo without a change
// of pitch. Two elements take turns: where a loop goes back, the other one stands there ready.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const TYPES = { mp3: "audio/mpeg", ogg: "audio/ogg", opus: "audio/ogg", flac: "audio/flac", wav: "audio/wav", m4a: "audio/mp4" };
  /** A stretch begins and ends a little early, so that a note on its first beat is not cut. */
  const EARLY_MS = 30;
  const TURN_MS = 40;
  /** How long before a loop goes back the jump is planned, and how long an element takes to begin until it is known. */
  const PLANNED_MS = 250;
  const BEGINS_MS = 30;
  const MOST_MS = 200;
  const SETTLED_MS = 150;
  const LEARNT = 0.8;

  // Which tracks there are.

  const there = new Map();

  /** Whether a file is there and can be played; asked once. */
  function probe(file) {
    if (!there.has(file)) {
      there.set(file, new Promise((found) => {
        const audio = new Audio();
        const done = (yes) => () => {
          audio.onloadedmetadata = audio.onerror = null;
          audio.removeAttribute("src");
          audio.load();
          found(yes);
        };
        audio.onloadedmetadata = done(true);
        audio.onerror = done(false);
        audio.preload = "metadata";
        audio.src = file;
      }));
    }
    return there.get(file);
  }

  function playable(files) {
    const player = document.createElement("audio");
    return files.find((file) => player.canPlayType(TYPES[file.split(".").pop().toLowerCase()] ?? "")) ?? null;
  }

  /** The tracks of a phrase in a key that can be played here: {kind, feel, share, file, timing}. */
  async function offered(phrase, key) {
    if (!practice.book.tracks) return [];
    const all = await practice.load("tracks", { keep: true }).catch(() => ({}));
    const rows = (all[phrase] ?? [])
      .filter((row) => practice.pitchClass(row[0]) === practice.pitchClass(key))
      .map(([, kind, share, feel, files, timing]) => ({ kind, share, feel, timing, file: playable(files) }))
      .filter((row) => row.file);
    const found = await Promise.all(rows.map((row) => probe(row.file)));
    return rows.filter((row, place) => found[place]);
  }

  /** Of tracks of one kind the one whose tempo is nearest to what is asked for. */
  function nearest(rows, source, share) {
    const far = (row) => Math.abs(Math.log(row.share / share));
    return rows.filter((row) => sourceOf(row) === source).sort((one, other) => far(one) - far(other))[0] ?? null;
  }

  const sourceOf = (row) => (row.feel ? `${row.kind}/${row.feel}` : row.kind);

  // Playing one.

  /** What is played one after the other, in milliseconds of the track; after the last comes the one at `again`. */
  function stretches(timing, bars, count) {
    const { rounds, bar } = timing;
    const whole = rounds.slice(0, -1).map((from, round) => ({ from, to: rounds[round + 1], round }));
    const counted = count && rounds[0] > 0 ? [{ from: 0, to: rounds[0], round: -1 }] : [];
    if (bars) {
      const looped = whole.map(({ from, round }) => ({ from: from + (bars[0] - 1) * bar, to: from + bars[1] * bar, round }));
      return { counted, rounds: looped, again: 0 };
    }
    // A short phrase is followed by empty bars, but for the last time: there the track would be out of turn.
    const last = whole[whole.length - 1];
    const even = whole.length > 1 && last.to - last.from < whole[0].to - whole[0].from - bar / 2 ? whole.slice(0, -1) : whole;
    return { counted, rounds: even, again: Math.min(1, even.length - 1) };
  }

  /** The notes of a stretch: [struck at, let go at, which], in milliseconds of the track. */
  function notesIn(timing, { from, to, round }) {
    const found = [];
    for (const [index, flat] of timing.notes.entries()) {
      if (Math.abs(index - round) > 1) continue;
      for (let place = 0; place < flat.length; place += 3) {
        const at = timing.rounds[index] + flat[place];
        if (at >= from - EARLY_MS && at < to - EARLY_MS) found.push([at, at + flat[place + 1], flat[place + 2]]);
      }
    }
    return found.sort((one, other) => one[0] - other[0]);
  }

  /**
   * Play a track round and round; what is asked for and told is as for the band (`sound.js`). `rows` are those of
   * `offered`, `source` which kind of them. A recording whose times nobody knows is played from beginning to end.
   */
  async function play({ phrase, rows, source, share, bars = null, count = true, times = 0, told = {} }) {
    const row = nearest(rows, source, share);
    const run = practice.sound.take({ told, row, rate: share / row.share, times, done: 0, marked: -1, begins: BEGINS_MS, jump: null });
    const both = () => [run.audio, run.other].filter(Boolean);
    run.end = () => {
      run.over = true;
      clearInterval(run.timer);
      clearTimeout(run.jump);
      for (const one of both()) silence(one);
    };
    run.setShare = (wanted) => {
      if (nearest(rows, source, wanted) !== row) return false;
      run.rate = wanted / row.share;
      run.clock = run.due = 0;
      for (const one of both()) one.playbackRate = run.rate;
      clearTimeout(run.jump);
      run.jump = null;
      return true;
    };
    // Where the times are missing, the track is played as a recording is.
    run.timing = row.timing < 0 ? null : ((await practice.load(`timed/${phrase}`).catch(() => []))[row.timing] ?? null);
    if (run.over) return;
    run.order = run.timing ? stretches(run.timing, bars, count) : { counted: [], rounds: [{ from: 0, to: Infinity, round: 0 }], again: 0 };
    enter(run, run.order.counted[0] ?? run.order.rounds[0]);
    run.audio = standing(run, run.stretch);
    run.told.onState(true);
    await run.audio.play().catch((error) => refused(run, error));
    if (run.over) return;
    run.timer = setInterval(() => step(run), TURN_MS);
    const frame = () => {
      step(run);
      if (!run.over) requestAnimationFrame(frame);
    };
    frame();
  }

  /** An element that stands where a stretch begins. */
  function standing(run, stretch) {
    const audio = new Audio(run.row.file);
    audio.preload = "auto";
    audio.preservesPitch = audio.webkitPreservesPitch = true;
    audio.playbackRate = run.rate;
    audio.currentTime = begin(stretch) / 1000;
    audio.onended = () => run.audio === audio && ended(run);
    return audio;
  }

  const begin = (stretch) => Math.max(0, stretch.from - (stretch.round < 0 ? 0 : EARLY_MS));

  function silence(audio) {
    audio.onended = null;
    audio.pause();
    audio.removeAttribute("src");
    audio.load();
  }

  function enter(run, stretch) {
    run.stretch = stretch;
    run.notes = run.timing ? notesIn(run.timing, stretch) : [];
  }

  /** What comes after the stretch in hand; null where it is the last that was asked for. */
  function following(run) {
    const { rounds, again } = run.order;
    if (run.stretch.round < 0) return rounds[0];
    if (run.times && run.done + 1 >= run.times) return null;
    const place = rounds.indexOf(run.stretch);
    return rounds[place + 1] && rounds[place + 1].from >= run.stretch.to ? rounds[place + 1] : rounds[again];
  }

  /** The stretch in hand is over: say so, and go into the next one. */
  function pass(run, next) {
    if (run.stretch.round >= 0) {
      run.done += 1;
      run.told.onRound(run.done);
    }
    if (run.over) return;
    if (next) enter(run, next);
    else practice.sound.stop({ over: true });
  }

  /** See where the track is: which note sounds, and whether the stretch is over or will be at once. */
  function step(run) {
    if (run.over) return;
    const now = run.audio.currentTime * 1000;
    mark(run, run.notes.findLast?.(([at, end]) => at <= now && now < end)?.[2] ?? -1);
    learn(run, now);
    const left = (run.stretch.to - EARLY_MS - now) / run.rate;
    const next = run.timing ? following(run) : run.stretch;
    if (!next || next.from === run.stretch.to) {
      if (left <= 0) pass(run, next);
      return;
    }
    if (!run.timing) return;
    if (run.ready !== next) {
      if (run.other) run.other.currentTime = begin(next) / 1000;
      else run.other = standing(run, next);
      run.ready = next;
    }
    if (left <= PLANNED_MS && run.jump === null) run.jump = setTimeout(() => jump(run, next), Math.max(0, left - run.begins));
  }

  function mark(run, note) {
    if (note === run.marked) return;
    run.marked = note;
    run.told.onStruck(note);
  }

  /** Go back: the element that stands ready begins, the other is silent when it has begun. */
  function jump(run, next) {
    if (run.over) return;
    const before = run.audio;
    run.jump = run.ready = null;
    run.audio = run.other;
    run.other = before;
    run.due = run.clock && run.clock + (run.stretch.to - EARLY_MS - begin(run.stretch)) / run.rate;
    run.clock = 0;
    run.audio.play().catch(() => {
      // Not allowed to begin by itself: the element that was touched goes back instead.
      run.other = run.audio;
      run.audio = before;
      before.currentTime = begin(next) / 1000;
      before.play().catch(() => {});
    });
    setTimeout(() => run.audio !== before && before.pause(), run.begins);
    pass(run, next);
  }

  /** Learn how late a jump was, by the clock: the next one is made so much earlier. */
  function learn(run, now) {
    const played = (now - begin(run.stretch)) / run.rate;
    if (played < SETTLED_MS) return;
    run.clock = performance.now() - played;
    if (run.due) run.begins = Math.min(MOST_MS, Math.max(0, run.begins + LEARNT * (run.clock - run.due)));
    run.due = 0;
  }

  /** A track that may not sound, or cannot; one that was over before it had begun was aborted and goes on. */
  function refused(run, error) {
    if (!run.over && error.name !== "AbortError") practice.sound.stop();
  }

  /** The file itself is over before the stretch was found to be. */
  function ended(run) {
    if (run.over) return;
    const next = run.timing || (run.times && run.done + 1 >= run.times) ? following(run) : run.stretch;
    clearTimeout(run.jump);
    run.jump = run.ready = null;
    pass(run, next);
    if (run.over) return;
    run.audio.currentTime = begin(run.stretch) / 1000;
    run.audio.play().catch((error) => refused(run, error));
  }

  practice.recorded = { offered, nearest, sourceOf, play };
})();
