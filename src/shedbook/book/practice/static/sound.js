// The sound of the page: single notes of every instrument, struck when the band's performance says so.
//
// Notes are buffer sources on the audio clock, planned a little ahead, so a tempo never changes a pitch and a loop has
// no seam. A performance is given in ticks at several tempos; between them a note's place goes evenly.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const AHEAD_S = 0.35;
  const AHEAD_HIDDEN_S = 1.6;
  const TURN_MS = 60;
  const START_S = 0.12;
  const EARLY_TICKS = 40;
  const MASTER = 1.7;
  const DECODED_HZ = 44_100;
  const RELEASES_S = { line: 0.06, bass: 0.05, comping: 0.12, drums: 0.3, click: 0.1 };
  const CLICK_KEY = 37;
  const CLICK_VELOCITY = 92;

  let context = null;
  let master = null;
  const instruments = new Map();

  function audio() {
    if (!context) {
      context = new AudioContext({ latencyHint: "interactive" });
      master = new GainNode(context, { gain: MASTER });
      master.connect(context.destination);
    }
    if (context.state === "suspended") context.resume().catch(() => {});
    return context;
  }

  /** What decodes: sound may be got ready before a gesture allows the page to make any. */
  function decoder() {
    return context ?? new OfflineAudioContext(1, 1, DECODED_HZ);
  }

  /** The single notes of an instrument, decoded once: where each begins is counted from the click that opens its file. */
  function instrument(name) {
    if (!instruments.has(name)) {
      const row = practice.book.sounds.instruments[name];
      const ready = practice
        .load(`sounds/${name}`, { keep: true })
        .then((content) => decoder().decodeAudioData(content.slice(0)))
        .then((buffer) => {
          const samples = buffer.getChannelData(0);
          let click = 0;
          for (let place = 0; place < 0.2 * buffer.sampleRate; place += 1) {
            if (Math.abs(samples[place]) > Math.abs(samples[click])) click = place;
          }
          return { buffer, row, shift: click / buffer.sampleRate - practice.book.sounds.click };
        });
      ready.catch(() => instruments.delete(name));
      instruments.set(name, ready);
    }
    return instruments.get(name);
  }

  function kitOf(program) {
    return program === 40 ? "brushes" : "drums";
  }

  function nearest(row, midi) {
    let best = row.notes[0];
    for (const one of row.notes) if (Math.abs(one[0] - midi) < Math.abs(best[0] - midi)) best = one;
    return best;
  }

  /** Strike one note at a time of the audio clock. Returns its source, which can be stopped. */
  function strike(sounds, out, { midi, velocity, at, seconds, volume = 100, pan = 64, release = 0.08, drum = false }) {
    const { buffer, row, shift } = sounds;
    const [own, start, length, loopEnd] = nearest(row, midi);
    if (drum && own !== midi) return null;
    const level = (velocity / practice.book.sounds.velocity) ** 2 * (volume / 100) ** 2 * row.gain;
    const tuned = practice.chosen.tuning / 440;
    const source = new AudioBufferSourceNode(context, {
      buffer,
      playbackRate: drum ? 1 : 2 ** ((midi - own) / 12) * tuned,
      loop: row.loops,
      loopStart: start + shift + row.loop_from,
      loopEnd: start + shift + loopEnd,
    });
    const gain = new GainNode(context, { gain: level });
    const from = Math.max(at, context.currentTime);
    const stop = drum ? from + length : Math.max(from + 0.02, at + seconds);
    if (!drum) {
      gain.gain.setValueAtTime(level, stop);
      gain.gain.linearRampToValueAtTime(0, stop + release);
    }
    source.connect(gain);
    if (pan === 64) gain.connect(out);
    else gain.connect(new StereoPannerNode(context, { pan: (pan - 64) / 64 })).connect(out);
    source.start(from, start + shift, row.loops ? undefined : length);
    source.stop(stop + (drum ? 0 : release));
    source.onended = () => {
      source.disconnect();
      gain.disconnect();
    };
    return source;
  }

  // A performance: columns of ticks as the build wrote them, and where they fall at a tempo.

  /** The notes of a phrase in one key at a share of its tempo: by player, in ticks of that tempo. */
  function performed(played, keyPlace, share, sounding = null) {
    const key = played.keys[keyPlace];
    const ticks = knots(played.tempos, share);
    return key.parts.map((part) => {
      let at = 0;
      const notes = part.midi.map((midi, place) => {
        at += part.start[place];
        return { tick: at + ticks(part.later, place), length: part.length[place], midi, velocity: part.velocity[place], struck: part.struck?.[place] ?? -1 };
      });
      if (sounding && part.player === "line") inRegister(notes, sounding);
      return { ...part, notes, sound: part.drums ? kitOf(part.program) : part.instrument };
    });
  }

  /** The notes of the line as it is played first, by struck note: [midi, start, length] in seconds at a share. */
  function lineNotes(played, keyPlace, share, sounding) {
    const seconds = (played.keys[keyPlace].us * 100) / share / 1e6 / played.quarter;
    const line = performed(played, keyPlace, share, sounding).find((part) => part.player === "line");
    const found = [];
    for (const note of line.notes) {
      if (note.struck >= 0 && !found[note.struck]) found[note.struck] = [note.midi, note.tick * seconds, note.length * seconds];
    }
    const first = Math.min(...found.filter(Boolean).map((note) => note[1]));
    return found.map((note) => note && [note[0], note[1] - first, note[2]]);
  }

  /** Where a place in quarters falls when it is swung as the band swings at a share, in quarters. */
  function swung(played, share, quarters) {
    const known = played.tempos.map((tempo, place) => [tempo, played.off[place]]).sort((one, other) => one[0] - other[0]);
    const low = known.filter(([tempo]) => tempo <= share).pop() ?? known[0];
    const high = known.find(([tempo]) => tempo >= share) ?? known[known.length - 1];
    const off = high[0] === low[0] ? low[1] : low[1] + ((high[1] - low[1]) * (share - low[0])) / (high[0] - low[0]);
    const beat = played.beat / played.quarter;
    const whole = Math.floor(quarters / beat + 1e-9);
    const part = quarters / beat - whole;
    const moved = part < 0.5 ? 2 * part * off : off + (2 * part - 1) * (1 - off);
    return (whole + moved) * beat;
  }

  /** A function that says by how many ticks a note is moved at a share, between the tempos that were played. */
  function knots(tempos, share) {
    const known = tempos.map((one, place) => [one, place]).sort((one, other) => one[0] - other[0]);
    const low = known.filter(([one]) => one <= share).pop() ?? known[0];
    const high = known.find(([one]) => one >= share) ?? known[known.length - 1];
    const part = high[0] === low[0] ? 0 : (share - low[0]) / (high[0] - low[0]);
    const value = (later, place, knot) => (knot === 0 ? 0 : later[knot - 1][place]);
    return (later, place) => value(later, place, low[1]) * (1 - part) + value(later, place, high[1]) * part;
  }

  /** Put the line into the register in which the reader's part sounds; grace notes go with the note they lead to. */
  function inRegister(notes, sounding) {
    let moved = 0;
    for (let place = notes.length - 1; place >= 0; place -= 1) {
      const { struck, midi } = notes[place];
      if (struck >= 0 && sounding[struck] !== undefined) {
        moved = sounding[struck] - midi;
        notes[place].midi = sounding[struck];
      } else notes[place].midi += moved;
    }
  }

  /** The stretches that are played one after the other, as [from, to] in ticks; after the last comes `again`. */
  function stretches(played, keyPlace, { bars = null, count = true }) {
    const key = played.keys[keyPlace];
    const rounds = key.signs.map(([tick, name], place) => ({ tick, name, end: key.signs[place + 1]?.[0] ?? key.ticks }));
    const starts = rounds.filter((one) => one.name === "round");
    const found = [];
    const counted = key.counted ? [{ from: 0, to: key.counted, round: -1, kind: "count" }] : [];
    if (bars) {
      for (const [round, one] of starts.entries()) {
        found.push({ from: one.tick + (bars[0] - 1) * played.bar, to: one.tick + bars[1] * played.bar, round, kind: "bars" });
      }
    } else {
      for (const [round, one] of starts.entries()) {
        const end = starts[round + 1]?.tick ?? one.tick + played.bars * played.bar;
        found.push({ from: one.tick, to: end, round, kind: "round" });
        const space = rounds.find((other) => other.name === "space");
        if (space && round === starts.length - 1) found[found.length - 1].to = found[found.length - 1].from + (found[0].to - found[0].from);
      }
    }
    return { counted: count ? counted : [], rounds: found };
  }

  // The player.

  const player = { playing: false };
  const NOBODY = { onStruck: () => {}, onRound: () => {}, onState: () => {} };
  let run = null;

  /**
   * Play a phrase round and round.
   *
   * `played` is the data of the phrase, `key` the place of the key, `share` the tempo in hundredths, `heard` which
   * players sound, `bars` the first and the last bar of a loop or null, `times` after how many rounds it ends (0 for
   * never), `sounding` the MIDI numbers of the reader's line, `own` a line in its
   * place as [midi, start, length] in quarters from bar 1. `told` is told: `onStruck(note)` of the struck note that
   * sounds, -1 for none; `onRound(rounds)` of each round that is over; `onState(playing, over)`.
   */
  player.play = async ({ played, key, share, heard, bars = null, count = true, times = 0, sounding = null, own = null, told = {} }) => {
    player.stop({ quiet: true });
    const turn = (run = { told: { ...NOBODY, ...told } });
    audio();
    const parts = performed(played, key, share, sounding);
    const kit = parts.find((part) => part.drums)?.sound ?? "drums";
    const sounds = await soundsOf(played.keys[key].parts);
    if (run !== turn) return;
    const out = new GainNode(context, { gain: 1 });
    out.connect(master);
    const secondsATick = (played.keys[key].us * 100) / share / 1e6 / played.quarter;
    const { counted, rounds } = stretches(played, key, { bars, count });
    for (const part of parts) part.notes.sort((one, other) => one.tick - other.tick);
    if (own) replaceLine(parts, own, rounds, played, share);
    Object.assign(run, { out, sounds, parts, kit, played, heard, share, secondsATick, counted, rounds, times, key, sounding, sources: new Set(), struck: [], log: [], done: 0, place: 0, phase: counted.length ? "count" : "rounds" });
    run.next = context.currentTime + START_S;
    player.playing = true;
    run.told.onState(true);
    plan();
    run.timer = setInterval(plan, TURN_MS);
    requestAnimationFrame(follow);
  };

  /** Put a line of the reader's own into every round, in the place of the phrase's. */
  function replaceLine(parts, own, rounds, played, share) {
    const line = parts.find((part) => part.player === "line");
    line.notes = rounds.flatMap(({ from }) =>
      own.map(([midi, start, length], struck) => {
        const tick = swung(played, share, start) * played.quarter;
        return { tick: from + tick, length: swung(played, share, start + length) * played.quarter - tick, midi, velocity: 88, struck };
      }),
    );
  }

  /** Change what is heard while it plays: from the next note on. */
  player.hear = (heard) => {
    if (run) run.heard = heard;
  };

  /** The single notes of all who play, by the name of their sound. */
  async function soundsOf(parts) {
    const names = new Set(parts.map((part) => (part.drums ? kitOf(part.program) : part.instrument)));
    return new Map(await Promise.all([...names].map(async (name) => [name, await instrument(name)])));
  }

  /** Get the sound of a phrase ready before it is asked for. */
  player.ready = (played) => soundsOf(played.keys[0].parts).then(() => undefined);

  /** Go on at another tempo from where it is; false while it counts in. */
  player.setShare = (share) => {
    if (run?.setShare) return run.setShare(share);
    const place = player.place();
    if (!place) return false;
    const lead = 0.05;
    const { out, sources, secondsATick } = run;
    out.gain.setTargetAtTime(0, context.currentTime + lead, 0.01);
    for (const source of sources) source.stop(context.currentTime + lead + 0.08);
    setTimeout(() => out.disconnect(), 400);
    const own = new GainNode(context, { gain: 1 });
    own.connect(master);
    const skip = place.skip + lead / secondsATick;
    const parts = performed(run.played, run.key, share, run.sounding);
    for (const part of parts) part.notes.sort((one, other) => one.tick - other.tick);
    const ticks = (run.played.keys[run.key].us * 100) / share / 1e6 / run.played.quarter;
    Object.assign(run, { out: own, sources: new Set(), parts, share, secondsATick: ticks, struck: [], phase: "rounds", place: place.place, done: place.done, skip });
    run.next = context.currentTime + lead - skip * ticks;
    plan();
    return true;
  };

  /** Where it is: the stretch, how far into it in ticks; null while it counts in or is silent. */
  player.place = () => {
    if (!run?.stretch || run.stretch.kind === "count") return null;
    const now = [...run.passed].reverse().find((one) => one.at <= context.currentTime) ?? null;
    if (!now || now.kind === "count") return null;
    return { place: now.place, done: now.done, skip: (context.currentTime - now.at) / run.secondsATick };
  };

  function plan() {
    if (!run?.sources) return;
    const ahead = document.hidden ? AHEAD_HIDDEN_S : AHEAD_S;
    while (run && run.next < context.currentTime + ahead) {
      const stretch = run.phase === "count" ? run.counted[0] : run.rounds[run.place];
      if (run.times && run.done >= run.times && run.phase !== "count") {
        endAfter(run.next);
        return;
      }
      schedule(stretch);
      if (run.phase === "count") run.phase = "rounds";
      else {
        run.done += 1;
        run.place = run.place + 1 < run.rounds.length ? run.place + 1 : Math.min(1, run.rounds.length - 1);
      }
      run.next += (stretch.to - stretch.from) * run.secondsATick;
    }
  }

  function schedule(stretch) {
    const start = run.next;
    const skip = run.skip ?? 0;
    run.skip = 0;
    run.stretch = stretch;
    run.passed = [...(run.passed ?? []).slice(-3), { at: start, place: run.place, done: run.done, kind: stretch.kind, stretch }];
    for (const part of run.parts) {
      const early = part.notes.filter((note) => note.tick >= stretch.from - EARLY_TICKS && note.tick < stretch.to - EARLY_TICKS);
      for (const note of borrowed(part, stretch, early)) {
        const tick = note.tick - stretch.from;
        if (skip && tick < skip) continue;
        enqueue(part, note, Math.max(context.currentTime, start + tick * run.secondsATick), stretch);
      }
    }
    if (stretch.kind !== "count") clicks(stretch, start, skip);
    if (stretch.kind !== "count") run.struck.push({ at: start + (stretch.to - stretch.from) * run.secondsATick, round: run.done + 1 });
  }

  /** Where the last round leads back to an earlier one, a pick-up is taken from the end of the round before that. */
  function borrowed(part, stretch, notes) {
    const pickup = -Math.min(0, run.played.struck[0]?.[0] ?? 0);
    const last = stretch === run.rounds[run.rounds.length - 1] && run.rounds.length > 1;
    if (!pickup || part.player !== "line" || stretch.kind !== "round" || !last) return notes;
    const other = run.rounds[0];
    const moved = stretch.to - other.to;
    const lead = part.notes.filter((note) => note.tick >= other.to - pickup - EARLY_TICKS && note.tick < other.to - EARLY_TICKS);
    return [...notes.filter((note) => note.tick < stretch.to - pickup - EARLY_TICKS), ...lead.map((note) => ({ ...note, tick: note.tick + moved }))];
  }

  function enqueue(part, note, at, stretch) {
    const counting = stretch.kind === "count" && part.player === "drums";
    const left = (stretch.to - stretch.from) * run.secondsATick + run.next - at;
    const cut = stretch.kind === "bars" ? Math.max(0.05, left) : Infinity;
    const seconds = Math.min(note.length * run.secondsATick, cut);
    run.log.push([part.player, note.tick, note.midi, at]);
    if (run.log.length > 4000) run.log.splice(0, 1000);
    if (note.struck >= 0) run.struck.push({ at, end: at + seconds, struck: note.struck });
    if (!(counting || run.heard[part.player])) return;
    sound(run.sounds.get(part.sound), { midi: note.midi, velocity: note.velocity, at, seconds, volume: part.volume, pan: part.pan, release: RELEASES_S[part.player], drum: part.drums });
  }

  function clicks(stretch, start, skip) {
    if (!run.heard.click) return;
    for (let bar = stretch.from; bar < stretch.to; bar += run.played.bar) {
      for (const place of run.played.clicked) {
        const tick = bar + place - stretch.from;
        if (bar + place >= stretch.to || tick < skip) continue;
        sound(run.sounds.get(run.kit), { midi: CLICK_KEY, velocity: CLICK_VELOCITY, at: start + tick * run.secondsATick, seconds: 0.2, volume: 127, drum: true });
      }
    }
  }

  function sound(sounds, note) {
    const source = sounds ? strike(sounds, run.out, note) : null;
    if (!source) return;
    const mine = run;
    mine.sources.add(source);
    source.addEventListener("ended", () => mine.sources.delete(source));
  }

  function endAfter(at) {
    clearInterval(run.timer);
    const mine = run;
    mine.timer = setTimeout(() => run === mine && player.stop({ over: true }), Math.max(0, (at - context.currentTime) * 1000));
  }

  /** Follow what sounds, frame by frame: what is told is when it is heard, not when it was sent. */
  function follow() {
    if (!run?.sources) return;
    const now = context.currentTime - (context.outputLatency || 0);
    const mine = run;
    while (mine.struck.length && mine.struck[0].at <= now) {
      const one = mine.struck.shift();
      if (one.struck !== undefined) {
        mine.now = one;
        mine.told.onStruck(one.struck);
      } else {
        mine.told.onRound(one.round);
        if (run !== mine) return;
      }
    }
    if (mine.now && now >= mine.now.end) {
      mine.now = null;
      mine.told.onStruck(-1);
    }
    if (mine.unsorted !== mine.struck.length) {
      mine.struck.sort((one, other) => one.at - other.at);
      mine.unsorted = mine.struck.length;
    }
    requestAnimationFrame(follow);
  }

  player.stop = ({ quiet = false, over = false } = {}) => {
    const mine = run;
    run = null;
    if (mine) {
      clearInterval(mine.timer);
      clearTimeout(mine.timer);
      mine.end?.();
      if (mine.out) {
        mine.out.gain.setTargetAtTime(0, context.currentTime, 0.015);
        for (const source of mine.sources) source.stop(context.currentTime + 0.12);
        setTimeout(() => mine.out.disconnect(), 300);
      }
    }
    if (!player.playing) return;
    player.playing = false;
    mine?.told.onStruck(-1);
    if (!quiet) mine?.told.onState(false, over);
  };

  /** Let another sound run in the place of the band: `mine.end()` stops it, `mine.setShare(share)` changes its tempo. */
  player.take = (mine) => {
    player.stop({ quiet: true });
    run = { ...mine, told: { ...NOBODY, ...mine.told } };
    player.playing = true;
    return run;
  };

  // Notes by themselves: a scale, a line of the reader's own.

  /** Play notes of the line's instrument: [[midi, start, seconds], …]; `told` as above. */
  player.notes = async (name, notes, told = {}) => {
    player.stop();
    const mine = (run = { told: { ...NOBODY, ...told } });
    audio();
    const sounds = await instrument(name);
    if (run !== mine) return;
    const out = new GainNode(context, { gain: 1 });
    out.connect(master);
    Object.assign(mine, { out, sources: new Set(), struck: [], played: null });
    const start = context.currentTime + START_S;
    let end = 0;
    for (const [place, [midi, at, seconds]] of notes.entries()) {
      sound(sounds, { midi, velocity: 90, at: start + at, seconds, volume: 84, release: 0.06 });
      mine.struck.push({ at: start + at, end: start + at + seconds, struck: place });
      end = Math.max(end, at + seconds);
    }
    player.playing = true;
    mine.told.onState(true);
    mine.timer = setTimeout(() => run === mine && player.stop({ over: true }), (end + START_S + 0.1) * 1000);
    requestAnimationFrame(follow);
  };

  /** What a check may look at: the notes that were sent, and the clock. */
  player.log = () => ({ log: run?.log ?? [], now: context?.currentTime ?? 0, passed: run?.passed ?? [], sources: run?.sources?.size ?? 0 });
  player.lineInstrument = (played) => played.keys[0].parts.find((part) => part.player === "line")?.instrument;
  player.context = audio;
  player.instrument = instrument;

  practice.sound = player;
  practice.performed = performed;
  practice.lineNotes = lineNotes;
  practice.swung = swung;
})();
