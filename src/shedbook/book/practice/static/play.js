// Play a phrase: the score, the band, and a hand's few controls. Everything but the choice of what to play can be done by
// a pedal or a key.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;

  const LEAST_SHARE = 40;
  const MOST_SHARE = 120;
  const STEP = 5;
  const PLAYERS = ["line", "bass", "comping", "drums", "click"];
  const ROUNDS = [0, 1, 2, 4, 8];
  const CLEAN_ROUNDS = [0, 1, 2, 4];

  let parts = null;
  let score = null;
  let bars = null;
  let clean = 0;
  let played = null;
  let part = null;
  /** The recorded tracks that lie beside the page, of the phrase and key in hand. */
  let tracks = [];

  // What is played.

  const phrase = () => practice.phrase(practice.chosen.phrase);

  function keyPlace() {
    const wanted = practice.pitchClass(practice.chosen.key);
    const found = phrase().keys.findIndex((one) => practice.pitchClass(one.key) === wanted);
    return found < 0 ? 0 : found;
  }

  /** The place of the key in hand among those of the phrase in hand. */
  practice.keyPlace = keyPlace;

  const beats = (share = practice.chosen.share) => Math.round((phrase().tempo * share) / 100);

  /** The name of a key of a phrase as the reader in hand reads it. */
  practice.keyName = (one, place) => one.keys[place].written[practice.instrument().slug];

  /** The data of the phrase in hand: as the band plays it, and as the reader reads it. */
  practice.phraseData = async () => {
    const id = practice.chosen.phrase;
    const [one, other] = await Promise.all([
      practice.load(`played/${id}`),
      practice.load(`scores/${practice.instrument().slug}/${id}`),
    ]);
    return { played: one, part: other };
  };

  async function open() {
    const asked = `${practice.chosen.phrase} ${practice.instrument().slug}`;
    if (open.asked !== asked) {
      bars = null;
      const found = await practice.phraseData();
      if (`${practice.chosen.phrase} ${practice.instrument().slug}` !== asked) return;
      ({ played, part } = found);
      open.asked = asked;
    }
    practice.chosen.key = phrase().keys[keyPlace()].key;
    score.show(part, keyPlace());
    tracks = [];
    const wanted = (open.tracks = practice.recorded.offered(phrase().id, practice.chosen.key).then((found) => {
      if (open.tracks !== wanted) return;
      tracks = found;
      describeSources();
    }));
    describe();
    practice.remember();
    (window.requestIdleCallback ?? setTimeout)(() => practice.sound.ready(played).catch(() => {}));
  }

  function describe() {
    const one = phrase();
    const place = keyPlace();
    parts.title.textContent = say("play.phrase", { n: one.number, title: one.title });
    parts.key.textContent = practice.keyName(one, place);
    parts.share.value = practice.chosen.share;
    parts.share.setAttribute("aria-valuetext", say("play.tempo.value", { n: beats(), share: practice.chosen.share }));
    parts.beats.textContent = say("play.tempo.value", { n: beats(), share: practice.chosen.share });
    const wanted = [say("play.loop.whole")];
    for (let bar = 1; bar <= one.bars && one.bars > 1; bar += 1) wanted.push(say("play.loop.bar", { n: bar }));
    for (let bar = 1; bar < one.bars && one.bars > 2; bar += 1) wanted.push(say("play.loop.link", { n: bar, m: bar + 1 }));
    if (parts.loop.dataset.phrase !== one.id) {
      parts.loop.replaceChildren(...wanted.map((text, at) => element("option", { value: at }, text)));
      parts.loop.dataset.phrase = one.id;
    }
    parts.loop.value = bars ? (bars[0] === bars[1] ? bars[0] : one.bars + bars[0]) : 0;
    score.loop(bars);
    describeSources();
    practice.planScreen?.howItWent?.(parts.went, request());
    parts.went.hidden = !parts.went.childElementCount || practice.sound.playing;
  }

  /** The kind of track that is chosen, where there is one for the phrase and key in hand; else the page plays. */
  const sourceInHand = () => tracks.some((row) => practice.recorded.sourceOf(row) === practice.chosen.source) && practice.chosen.source;

  /** What can be chosen as the sound here: the page itself, and the tracks that lie beside it. */
  function describeSources() {
    const known = new Map(tracks.map((row) => [practice.recorded.sourceOf(row), row]));
    const recorded = sourceInHand();
    parts.source.closest("label").hidden = !known.size;
    parts.source.replaceChildren(
      element("option", { value: "" }, say("play.source.page")),
      ...[...known].map(([value, { kind, feel }]) => element("option", { value }, say("play.source.track", { name: say(`play.track.${kind}`) + (feel ? `, ${feel}` : "") }))),
    );
    parts.source.value = recorded || "";
    parts.sourceSays.hidden = !recorded;
    for (const name of PLAYERS) parts[`heard ${name}`].disabled = Boolean(recorded);
    const loose = recorded && practice.recorded.nearest(tracks, recorded, practice.chosen.share).timing < 0;
    parts.loop.disabled = parts["heard count"].disabled = Boolean(loose);
  }

  function chooseSource() {
    practice.chosen.source = parts.source.value;
    practice.remember();
    describeSources();
    if (practice.sound.playing) play();
  }

  const request = () => ({ phrase: phrase().id, key: phrase().keys[keyPlace()].key, tempo: beats() });

  // Playing.

  const told = {
    onStruck(note) {
      score.mark(note);
      if (note >= 0 && practice.sound.playing) score.seek(note);
    },
    onRound: roundOver,
    onState(playing, over) {
      parts.play.textContent = say(playing ? "play.stop" : "play.start");
      parts.play.setAttribute("aria-pressed", String(playing));
      parts.went.hidden = playing || !parts.went.childElementCount;
      if (!parts.went.hidden) parts.went.scrollIntoView({ block: "nearest", behavior: practice.calm() ? "auto" : "smooth" });
      document.body.classList.toggle("playing", playing);
      wake(playing);
      if (!playing && over) nextKey(1, { playing: true });
    },
  };

  async function play() {
    practice.sound.context(); // at once: some browsers open their sound in answer to a touch only
    await open();
    if (practice.chosen.source) await open.tracks;
    clean = 0;
    const chosen = practice.chosen;
    const asked = { share: chosen.share, bars, count: chosen.heard.count, times: chosen.rounds, told };
    if (sourceInHand()) await practice.recorded.play({ ...asked, phrase: phrase().id, rows: tracks, source: chosen.source });
    else await practice.sound.play({ ...asked, played, key: keyPlace(), heard: chosen.heard, sounding: part.keys[keyPlace()].midi });
    practice.tell(say("play.told", { title: phrase().title, key: practice.keyName(phrase(), keyPlace()), n: beats() }));
  }

  function toggle() {
    if (practice.sound.playing) practice.sound.stop();
    else return play();
    return undefined;
  }

  function roundOver() {
    clean += 1;
    practice.progress?.played?.({ ...request(), rounds: 1 });
    const wanted = practice.chosen.faster;
    if (wanted && clean >= wanted && practice.chosen.share < MOST_SHARE) {
      clean = 0;
      setShare(practice.chosen.share + STEP);
    }
  }

  /** The round was not clean: the count of clean rounds begins anew, one step slower. */
  function notClean() {
    clean = 0;
    setShare(practice.chosen.share - STEP);
  }

  function setShare(share) {
    const next = Math.min(MOST_SHARE, Math.max(LEAST_SHARE, Math.round(share)));
    if (next === practice.chosen.share) return;
    practice.chosen.share = next;
    describe();
    practice.remember();
    if (practice.sound.playing && !practice.sound.setShare(next)) play();
  }

  /** Go to the next key, or back; where a plan runs, it says what comes next. Playing goes on. */
  async function nextKey(by, { playing = practice.sound.playing } = {}) {
    const running = by > 0 && practice.schedule?.running;
    const planned = running ? practice.schedule.next() : null;
    if (running && !planned) {
      practice.sound.stop();
      practice.show("plan"); // a rest, or the end of the plan, has its own screen
      return;
    }
    if (planned) practice.show("play", planned);
    else {
      const keys = phrase().keys;
      practice.chosen.key = keys[(keyPlace() + by + keys.length) % keys.length].key;
    }
    await open();
    practice.tell(practice.keyName(phrase(), keyPlace()));
    if (playing) await play();
  }

  async function choosePhrase(id) {
    practice.sound.stop();
    practice.chosen.phrase = id;
    practice.chosen.key = practice.phrase(id).home;
    await open();
  }

  let lock = null;
  async function wake(on) {
    try {
      if (on && !lock) lock = await navigator.wakeLock?.request("screen");
      else if (!on && lock) {
        await lock.release();
        lock = null;
      }
    } catch {
      lock = null;
    }
  }

  // What the screen is made of.

  function build() {
    parts = {
      title: element("button", { class: "phrase-name", "aria-haspopup": "dialog", onclick: () => practice.choose(choosePhrase) }),
      key: element("button", { class: "key-name", "aria-haspopup": "dialog", onclick: () => practice.chooseKey(reopen) }),
      play: element("button", { class: "main", "aria-pressed": "false", onclick: toggle }, say("play.start")),
      share: element("input", { type: "range", min: LEAST_SHARE, max: MOST_SHARE, step: 1, "aria-label": say("play.tempo") }),
      beats: element("output", { class: "beats" }),
      loop: element("select", { onchange: chooseLoop }),
      source: element("select", { onchange: chooseSource }),
      sourceSays: element("p", { class: "quiet" }, say("play.source.says")),
      went: element("div", { id: "how-it-went", hidden: true }),
      score: element("div", { class: "paper" }),
    };
    parts.share.addEventListener("change", () => setShare(Number(parts.share.value)));
    parts.share.addEventListener("input", () => {
      parts.beats.textContent = say("play.tempo.value", { n: beats(Number(parts.share.value)), share: parts.share.value });
    });
    const section = element(
      "section",
      {},
      element("h1", { class: "unseen" }, say("screen.play")),
      asked(),
      element("div", { class: "over" }, parts.title, keyButtons()),
      parts.score,
      parts.went,
      element("div", { class: "hand" }, parts.play, element("div", { class: "tempo" }, element("span", { class: "quiet" }, say("play.tempo")), parts.share, parts.beats)),
      settings(),
    );
    score = practice.score(parts.score);
    return section;
  }

  /** Where a book has several parts, a reader says once which one is theirs. */
  function asked() {
    if (practice.book.instruments.length < 2 || practice.chosen.instrument) return null;
    const question = element(
      "fieldset",
      { class: "asked" },
      element("legend", {}, say("reader.asked")),
      element(
        "div",
        { class: "row" },
        practice.book.instruments.map((one) =>
          element("button", {
            onclick: () => {
              practice.chosen.instrument = one.slug;
              practice.remember();
              for (const select of document.querySelectorAll("select.instrument")) select.value = one.slug;
              question.remove();
              reopen();
            },
          }, one.name),
        ),
      ),
    );
    return question;
  }

  function keyButtons() {
    return element(
      "div",
      { class: "keys" },
      element("button", { "aria-label": say("play.key.before"), onclick: () => nextKey(-1) }, "‹"),
      parts.key,
      element("button", { "aria-label": say("play.key.next"), onclick: () => nextKey(1) }, "›"),
    );
  }

  function settings() {
    const heard = PLAYERS.concat("count").map((name) => {
      const box = element("input", { type: "checkbox", checked: practice.chosen.heard[name] });
      box.addEventListener("change", () => hear(name, box.checked));
      parts[`heard ${name}`] = box;
      return element("label", { class: "check" }, box, say(`play.heard.${name}`));
    });
    return element(
      "details",
      { class: "more", open: matchMedia("(min-width: 60rem)").matches },
      element("summary", {}, say("play.more")),
      element("label", { class: "line" }, say("play.source"), parts.source),
      parts.sourceSays,
      element("fieldset", {}, element("legend", {}, say("play.heard")), element("div", { class: "row" }, heard)),
      element("label", { class: "line" }, say("play.loop"), parts.loop),
      choice("rounds", ROUNDS, "play.rounds", (n) => (n ? say("play.rounds.n", { n }) : say("play.rounds.stay"))),
      choice("faster", CLEAN_ROUNDS, "play.faster", (n) => (n ? say("play.faster.n", { n, step: STEP }) : say("play.faster.never"))),
      element("p", { class: "quiet" }, say("play.faster.says"), " ", element("button", { class: "link", onclick: notClean }, say("play.faster.not"))),
      practice.readerSettings(() => reopen()),
      element("p", { class: "quiet" }, say("play.hands")),
      element("p", { class: "quiet" }, say("play.ears")),
    );
  }

  function choice(name, values, row, words) {
    const options = values.map((value) => element("option", { value, selected: practice.chosen[name] === value }, words(value)));
    const select = element("select", {}, options);
    select.addEventListener("change", () => {
      practice.chosen[name] = Number(select.value);
      practice.remember();
      if (practice.sound.playing) play();
    });
    return element("label", { class: "line" }, say(row), select);
  }

  function hear(name, on) {
    practice.chosen.heard = { ...practice.chosen.heard, [name]: on };
    practice.sound.hear(practice.chosen.heard);
    if (parts[`heard ${name}`]) parts[`heard ${name}`].checked = on;
    practice.remember();
  }

  function chooseLoop() {
    const at = Number(parts.loop.value);
    const count = phrase().bars;
    bars = at === 0 ? null : at <= count ? [at, at] : [at - count, at - count + 1];
    score.loop(bars);
    if (practice.sound.playing) play();
  }

  async function reopen() {
    const playing = practice.sound.playing;
    practice.sound.stop();
    await open();
    if (playing) await play();
  }

  // Keys of the keyboard, and of pedals, which send the same.

  const KEYS = {
    " ": toggle,
    PageDown: () => nextKey(1),
    ArrowRight: () => nextKey(1),
    PageUp: () => (practice.chosen.faster && practice.sound.playing ? notClean() : nextKey(-1)),
    ArrowLeft: () => (practice.chosen.faster && practice.sound.playing ? notClean() : nextKey(-1)),
    ArrowUp: () => setShare(practice.chosen.share + STEP),
    ArrowDown: () => setShare(practice.chosen.share - STEP),
    l: () => hear("line", !practice.chosen.heard.line),
    c: () => hear("click", !practice.chosen.heard.click),
    n: notClean,
  };
  const ALWAYS = new Set(["PageDown", "PageUp"]);

  addEventListener("keydown", (event) => {
    if (practice.shown() !== "play" || event.ctrlKey || event.altKey || event.metaKey || document.querySelector("dialog[open]")) return;
    // A field keeps its keys, but those that pedals send; a button keeps the ones that press it.
    if (event.target.closest?.("input, select, textarea") && !ALWAYS.has(event.key)) return;
    if (event.target.closest?.("button, summary, a") && event.key === " ") return;
    const act = KEYS[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  });

  practice.screens.push({
    name: "play",
    word: "practice.screen.play",
    element: build,
    opened: () => {
      practice.opening = open();
    },
    closed: () => practice.sound.stop(),
  });

  practice.play = { start: play, stop: () => practice.sound.stop(), next: nextKey, place: keyPlace, score: () => score };
})();
