// Hears one note at a time: the period of the sound by its likeness to itself a little later (McLeod & Wyvill 2005, A
// smarter way to find pitch), a note where the pitch stays. A help, no judge: two notes at once, a bass far down, a room
// that rings and a whisper are all beyond it.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const WINDOW = 4096;
  const STEP = 2;
  const LOWEST_HZ = 60;
  const HIGHEST_HZ = 2200;
  const CLEAR = 0.86;
  const NEAR_BEST = 0.92;
  const QUIET = 0.008;
  const STAYS_MS = 70;
  const NEAR_SEMITONES = 0.55;
  const TURN_MS = 20;

  /** The pitch of samples as a MIDI number with its fraction, or null where there is none. `rate` in Hz. */
  function pitchOf(samples, rate, tuning = 440) {
    const size = Math.floor(samples.length / STEP);
    const coarse = new Float32Array(size);
    let power = 0;
    for (let place = 0; place < size; place += 1) {
      let sum = 0;
      for (let inner = 0; inner < STEP; inner += 1) sum += samples[place * STEP + inner];
      coarse[place] = sum / STEP;
      power += coarse[place] ** 2;
    }
    if (Math.sqrt(power / size) < QUIET) return null;
    const slow = rate / STEP;
    const least = Math.max(2, Math.floor(slow / HIGHEST_HZ));
    const most = Math.min(Math.floor(slow / LOWEST_HZ), Math.floor(size / 2));
    const like = new Float32Array(most + 2);
    for (let lag = 1; lag <= most + 1; lag += 1) {
      let product = 0;
      let squares = 0;
      for (let place = 0; place + lag < size; place += 1) {
        const one = coarse[place];
        const other = coarse[place + lag];
        product += one * other;
        squares += one * one + other * other;
      }
      like[lag] = squares ? (2 * product) / squares : 0;
    }
    let lag = 1;
    while (lag <= most && like[lag] > 0) lag += 1;
    const peaks = [];
    for (let at = Math.max(lag, least); at <= most; at += 1) {
      if (like[at] > like[at - 1] && like[at] >= like[at + 1]) peaks.push(at);
    }
    const height = (at) => {
      const [before, here, after] = [like[at - 1], like[at], like[at + 1]];
      return here + (before - after) ** 2 / (8 * (2 * here - before - after) || 1);
    };
    const best = Math.max(0, ...peaks.map(height));
    if (best < CLEAR) return null;
    const first = peaks.find((at) => height(at) >= NEAR_BEST * best);
    return 69 + 12 * Math.log2(rate / refined(samples, first * STEP) / tuning);
  }

  /** A period found in the coarse samples, found once more in the fine ones, to a fraction of a sample. */
  function refined(samples, near) {
    const likeness = (lag) => {
      let product = 0;
      let squares = 0;
      for (let place = 0; place + lag < samples.length; place += 2) {
        product += samples[place] * samples[place + lag];
        squares += samples[place] ** 2 + samples[place + lag] ** 2;
      }
      return squares ? (2 * product) / squares : 0;
    };
    const lags = Array.from({ length: 2 * STEP + 3 }, (_, place) => near - STEP - 1 + place).filter((lag) => lag > 0);
    const like = lags.map(likeness);
    let best = 1;
    for (let place = 1; place + 1 < lags.length; place += 1) if (like[place] > like[best]) best = place;
    const [before, here, after] = [like[best - 1], like[best], like[best + 1]];
    const shift = (before - after) / (2 * (before - 2 * here + after)) || 0;
    return lags[best] + Math.max(-1, Math.min(1, shift));
  }

  /** Notes from pitches in time: one begins where a pitch has stayed; after silence it may be the same again. */
  function noteKeeper(found) {
    let since = 0;
    let pitch = null;
    let last = null;
    return (at, midi) => {
      if (midi === null) {
        pitch = null;
        last = null;
        return;
      }
      if (pitch === null || Math.abs(midi - pitch) > NEAR_SEMITONES) {
        pitch = midi;
        since = at;
      } else if (at - since >= STAYS_MS) {
        const note = Math.round(pitch);
        if (note !== last) found(note);
        last = note;
      }
    };
  }

  /** The places of a line that were heard in order, in any octave: the longest common row. */
  practice.inOrder = (wanted, heard) => {
    const same = (one, other) => (((one - other) % 12) + 12) % 12 === 0;
    const best = Array.from({ length: wanted.length + 1 }, () => new Uint16Array(heard.length + 1));
    for (let one = wanted.length - 1; one >= 0; one -= 1) {
      for (let other = heard.length - 1; other >= 0; other -= 1) {
        best[one][other] = same(wanted[one], heard[other])
          ? best[one + 1][other + 1] + 1
          : Math.max(best[one + 1][other], best[one][other + 1]);
      }
    }
    const found = new Set();
    for (let one = 0, other = 0; one < wanted.length && other < heard.length; ) {
      if (same(wanted[one], heard[other]) && best[one][other] === best[one + 1][other + 1] + 1) {
        found.add(one);
        one += 1;
        other += 1;
      } else if (best[one + 1][other] >= best[one][other + 1]) one += 1;
      else other += 1;
    }
    return found;
  };

  const NAMES = ["C", "D♭", "D", "E♭", "E", "F", "F♯", "G", "A♭", "A", "B♭", "B"];

  practice.noteName = (midi) => `${NAMES[((Math.round(midi) % 12) + 12) % 12]}`;

  /** Begin to listen; `heard` is called with the MIDI numbers of the notes so far and the one of now, or null. */
  practice.ears = async (context, heard) => {
    const stream = await navigator.mediaDevices.getUserMedia({
      audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
    });
    const source = context.createMediaStreamSource(stream);
    const analyser = new AnalyserNode(context, { fftSize: WINDOW });
    source.connect(analyser);
    const samples = new Float32Array(WINDOW);
    let notes = [];
    let silent = false;
    let keep = noteKeeper(add);
    function add(midi) {
      notes = [...notes.slice(-200), midi];
      heard(notes, midi);
    }
    const timer = setInterval(() => {
      if (silent) return;
      analyser.getFloatTimeDomainData(samples);
      keep(performance.now(), pitchOf(samples, context.sampleRate, practice.chosen.tuning));
    }, TURN_MS);
    return {
      begin() {
        notes = [];
        keep = noteKeeper(add);
        heard(notes, null);
      },
      deaf() {
        silent = true;
      },
      hearAgain() {
        silent = false;
        this.begin();
      },
      stop() {
        clearInterval(timer);
        source.disconnect();
        for (const track of stream.getTracks()) track.stop();
      },
    };
  };

  /** The notes of a recording, as the microphone would have heard them. */
  practice.notesIn = (samples, rate, tuning = 440) => {
    const notes = [];
    const keep = noteKeeper((midi) => notes.push(midi));
    for (let from = 0; from + WINDOW <= samples.length; from += Math.round((rate * TURN_MS) / 1000)) {
      keep((1000 * from) / rate, pitchOf(samples.subarray(from, from + WINDOW), rate, tuning));
    }
    return notes;
  };
  practice.pitchOf = pitchOf;
})();
