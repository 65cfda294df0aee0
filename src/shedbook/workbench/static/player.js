// A player of lines and of recordings, for any page: no word of a screen, no other script.
//
// A line is played note by note from a palette of single notes (buffer sources, so a tempo never changes a pitch),
// a band from one recording with the times of its notes. Both can begin at any place and go round in a loop.
//
//   const player = new Player({ onState, onNote });
//   player.setPalette({ wav, starts: [[midi, seconds], …], each })
//   player.playLine(notes, { from, to, loop, speed })          notes: [[index, start, end, midi, velocity], …]
//   player.playSound(wav, notes, { from, to, loop })
//   player.stop()
//
// `onNote` is called with the index of the note that sounds, -1 for none, once for each frame in which it changes;
// `onState` with "silent", "line" or "sound". Where the browser has no audio output every call still returns.

const LEAD_S = 0.03;
const AHEAD_S = 0.25;
const TURN_MS = 60;
const RELEASE_S = 0.06;

export class Player {
  constructor({ onState = () => {}, onNote = () => {} } = {}) {
    this.onState = onState;
    this.onNote = onNote;
    this.context = null;
    this.palette = null;
    this.state = "silent";
    this.voices = new Set();
    this.note = -1;
    this.volume = 0.9;
  }

  /** Open the audio output; null where there is none. A browser wants a gesture of the reader before. */
  audio() {
    if (!this.context) {
      try {
        this.context = new AudioContext({ latencyHint: "interactive" });
        this.out = new GainNode(this.context, { gain: this.volume });
        this.out.connect(this.context.destination);
      } catch {
        this.context = null;
        return null;
      }
    }
    if (this.context.state === "suspended") this.context.resume().catch(() => {});
    return this.context;
  }

  setVolume(volume) {
    this.volume = volume;
    if (this.out) this.out.gain.value = volume;
  }

  /** Take single notes: a recording, where each begins, how many seconds apart. */
  async setPalette({ wav, starts, each }) {
    const context = this.audio() ?? new OfflineAudioContext(1, 1, 48000);
    const sound = await context.decodeAudioData(wav.slice(0));
    this.palette = { sound, starts, each };
  }

  /** Sound one note at once. */
  touch(midi, { seconds = 0.5, velocity = 90 } = {}) {
    const context = this.audio();
    if (context) this.voice(midi, context.currentTime + 0.005, seconds, velocity);
  }

  voice(midi, at, seconds, velocity) {
    const context = this.context;
    const level = (velocity / 127) ** 1.5;
    const gain = new GainNode(context, { gain: level });
    gain.connect(this.out);
    gain.gain.setValueAtTime(level, Math.max(at, at + seconds - RELEASE_S));
    gain.gain.linearRampToValueAtTime(0, at + seconds + RELEASE_S);
    let source;
    if (this.palette) {
      const [number, start] = this.palette.starts.reduce((best, one) => (Math.abs(one[0] - midi) < Math.abs(best[0] - midi) ? one : best));
      source = new AudioBufferSourceNode(context, { buffer: this.palette.sound, playbackRate: 2 ** ((midi - number) / 12) });
      source.connect(gain);
      source.start(at, start, this.palette.each);
    } else {
      source = new OscillatorNode(context, { type: "triangle", frequency: 440 * 2 ** ((midi - 69) / 12) });
      source.connect(gain);
      source.start(at);
    }
    source.stop(at + seconds + 2 * RELEASE_S);
    this.voices.add(source);
    source.onended = () => this.voices.delete(source);
  }

  /** Play a line; `from` and `to` are seconds of its own time at speed 1. Returns when the first note will sound. */
  playLine(notes, { from = 0, to = Infinity, loop = false, speed = 1 } = {}) {
    this.stop();
    const context = this.audio();
    const last = notes.length ? Math.max(...notes.map((one) => one[2])) : 0;
    const end = Math.min(to, last);
    const part = notes.filter((one) => one[1] >= from - 0.02 && one[1] < end);
    this.begin("line");
    if (!context || !part.length) {
      this.stop();
      return null;
    }
    const length = (to === Infinity ? last : to) - from;
    const start = context.currentTime + LEAD_S;
    const first = start + (part[0][1] - from) / speed;
    let round = 0;
    let next = 0;
    const plan = () => {
      while (true) {
        if (next >= part.length) {
          if (!loop) return;
          next = 0;
          round += 1;
        }
        const [, on, off, midi, velocity] = part[next];
        const at = start + (round * length + on - from) / speed;
        if (at > context.currentTime + AHEAD_S) return;
        this.voice(midi, Math.max(at, context.currentTime), (off - on) / speed, velocity);
        next += 1;
      }
    };
    plan();
    this.planning = setInterval(plan, TURN_MS);
    this.follow(() => {
      const now = (context.currentTime - start) * speed;
      if (!loop && now > length + 0.3) return null;
      return loop ? from + (now < 0 ? 0 : now % length) : from + now;
    }, part);
    return first;
  }

  /** Play a recording whose notes sound at known times. A loop without `from` and `to` is the whole of it. */
  async playSound(wav, notes, { from = 0, to = null, loop = false } = {}) {
    this.stop();
    const context = this.audio();
    this.begin("sound");
    const turn = this.turn;
    if (!context) {
      this.stop();
      return;
    }
    const buffer = await context.decodeAudioData(wav.slice(0));
    if (this.turn !== turn) return;
    const end = to ?? buffer.duration;
    const source = new AudioBufferSourceNode(context, { buffer, loop, loopStart: from, loopEnd: end });
    source.connect(this.out);
    const start = context.currentTime + LEAD_S;
    if (loop) source.start(start, from);
    else source.start(start, from, end - from);
    this.voices.add(source);
    source.onended = () => {
      this.voices.delete(source);
      if (this.turn === turn) this.stop();
    };
    this.follow(() => {
      const now = context.currentTime - start;
      return loop ? from + (now < 0 ? 0 : now % (end - from)) : from + now;
    }, notes);
  }

  begin(state) {
    this.turn = (this.turn ?? 0) + 1;
    this.state = state;
    this.onState(state);
  }

  /** Follow what sounds, frame by frame. */
  follow(now, notes = []) {
    const turn = this.turn;
    const frame = () => {
      if (this.turn !== turn || this.state === "silent") return;
      const at = now();
      if (at === null) {
        this.stop();
        return;
      }
      const found = notes.find((one) => at >= one[1] && at < one[2]);
      const note = found ? found[0] : -1;
      if (note !== this.note) {
        this.note = note;
        this.onNote(note);
      }
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  }

  stop() {
    clearInterval(this.planning);
    for (const voice of this.voices) {
      voice.onended = null;
      try {
        voice.stop();
      } catch {
        // It had not begun.
      }
    }
    this.voices.clear();
    this.turn = (this.turn ?? 0) + 1;
    if (this.note !== -1) {
      this.note = -1;
      this.onNote(-1);
    }
    if (this.state !== "silent") {
      this.state = "silent";
      this.onState("silent");
    }
  }
}
