// What to practise now: today's set, made for so many minutes, and the way through it; how a visit went.
//
// The set is a list as it lies on a stand. While it runs, one part of it is in hand: the music is on the screen for
// playing, warm-ups without music and rests are here. The screen for playing draws the answers with `howItWent` and
// goes on with `practice.schedule.next()`; where that is null while a plan runs, this screen is to be shown.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;
  const MINUTES = [5, 10, 15, 20, 30, 45, 60, 90];
  const USUAL_MINUTES = 20;

  const state = { minutes: USUAL_MINUTES, sheet: null, made: null, over: 0, went: null, told: false };
  let parts = null;

  const day = () => practice.planParts.dayOf(Date.now());

  // The set of today.

  function makePlan() {
    state.made = practice.schedule.plan({
      book: practice.book,
      known: practice.progress.known(),
      day: day(),
      minutes: state.minutes,
      sheet: practice.teacherSheet?.itemsOn(state.sheet, day()) ?? null,
    });
  }

  function partText(part) {
    if (part.kind === "rest") return say("plan.part.rest");
    if (!part.phrase) return say("plan.part.warm.alone");
    const [phrase, key] = practice.planParts.placed(part);
    return say("plan.in", { title: phrase?.title ?? part.phrase, key });
  }

  function row(part, place, now) {
    const { clock } = practice.planParts;
    const here = place === now;
    const name = part.kind === "rest" ? null : element("span", { class: "kind" }, say(`plan.part.${part.kind}`));
    return element(
      "li",
      { class: `${part.kind}${place < now ? " past" : ""}`, "aria-current": here ? "step" : null },
      element("span", { class: "from" }, clock(part.at)),
      element("span", { class: "what" }, partText(part), name && [" ", name]),
      element("span", { class: "tempo-of" }, part.tempo ? say("plan.at", { n: part.tempo }) : clock(part.seconds)),
    );
  }

  function list(plan, now = -1) {
    return element("ol", { class: "set" }, plan.parts.map((part, place) => row(part, place, now)));
  }

  // Before it begins.

  function minutesChooser() {
    const select = element("select", { id: "plan-minutes" }, MINUTES.map((n) => element("option", { value: n, selected: n === state.minutes }, say("plan.minutes.n", { n }))));
    select.addEventListener("change", async () => {
      state.minutes = Number(select.value);
      await practice.progress.store.set("minutes", state.minutes);
      makePlan();
      draw();
      document.getElementById("plan-minutes").focus();
    });
    return element("label", { class: "line", for: "plan-minutes" }, say("plan.minutes"), select);
  }

  function cautions() {
    return element("div", { class: "cautions" }, element("p", {}, say("plan.hands")), element("p", {}, say("plan.ears")));
  }

  function before() {
    const music = state.made.parts.some((part) => part.phrase);
    const teacher = fromTeacher();
    const lies = Boolean(teacher?.querySelector(".sheet-rows"));
    return [
      minutesChooser(),
      element("button", { class: "main begin", onclick: begin }, say("plan.begin")),
      cautions(),
      lies ? teacher : null,
      element("h2", {}, say("plan.set")),
      list(state.made),
      music ? null : element("p", {}, say("plan.nothing")),
      lies ? null : teacher,
    ];
  }

  function fromTeacher() {
    if (!practice.teacherSheet) return null;
    return practice.teacherSheet.forStudent(state.sheet, async (sheet) => {
      state.sheet = sheet;
      await practice.progress.store.set("sheet", sheet);
      makePlan();
      draw();
    });
  }

  function begin() {
    makePlan();
    state.over = 0;
    state.told = false;
    practice.schedule.start(state.made);
    goTo(practice.schedule.current());
  }

  // While it runs.

  /** Show what a part needs: its music on the screen for playing, all else here; at the end, the end. */
  function goTo(part) {
    practice.progress.leave();
    if (!part) finish();
    if (part?.phrase) {
      practice.show("play", { phrase: part.phrase, key: part.key, tempo: part.tempo });
      practice.tell(`${say(`plan.part.${part.kind}`)}: ${partText(part)}`);
      document.querySelector("main").focus({ preventScroll: true });
      scrollTo(0, 0);
    } else {
      // What stands here now must not be pressed once more while the store is read.
      draw();
      practice.show("plan");
      parts.head.focus();
    }
  }

  /** The plan is over: say so where the set stands. */
  function finish() {
    const { running } = practice.schedule;
    if (!running) return;
    state.over = Math.max(1, Math.min(running.minutes, Math.round(practice.schedule.elapsed() / 60)));
    practice.schedule.stop();
  }

  function during() {
    const running = practice.schedule.running;
    const part = practice.schedule.current();
    const still = running.since === null;
    const controls = [
      still ? element("button", { class: "main", onclick: goOn }, say("plan.go on")) : null,
      !still && part?.phrase ? element("button", { class: "main", onclick: () => goTo(part) }, say("plan.play")) : null,
      !still && part ? element("button", { class: part.phrase ? null : "main", onclick: () => goTo(practice.schedule.move()) }, say("plan.next")) : null,
      still ? null : element("button", { onclick: hold }, say("plan.pause")),
      element("button", { onclick: stop }, say("plan.stop")),
    ];
    return [
      element("p", { class: "clock" }, parts.clock),
      part ? element("div", { class: "in-hand" }, element("h2", {}, partText(part)), inHand(part)) : null,
      element("div", { class: "row" }, controls),
      list(running, running.place),
    ];
  }

  function inHand(part) {
    if (part.kind === "rest") return [element("p", {}, say("plan.rest.says")), element("p", { class: "left" }, parts.left)];
    if (part.kind === "warm") return element("p", {}, say(part.phrase ? "plan.warm.says" : "plan.warm.alone.says"));
    return element("p", {}, say(`plan.part.${part.kind}`), " · ", say("plan.at", { n: part.tempo }));
  }

  /** Every second: the clocks; and when the minutes are over, nothing new begins, and that is said. */
  function tick() {
    const running = practice.schedule.running;
    if (!running) return;
    const { clock } = practice.planParts;
    const spent = practice.schedule.elapsed();
    if (spent >= running.minutes * 60 && !state.told) {
      state.told = true;
      practice.tell(overText(running.minutes));
      if (practice.shown() === "play") refresh();
      else goTo(null);
      return;
    }
    if (practice.shown() !== "plan") return;
    parts.clock.textContent = say("plan.clock", { spent: clock(Math.min(spent, running.minutes * 60)), whole: clock(running.minutes * 60) });
    const part = practice.schedule.current();
    if (part?.kind === "rest") {
      const left = part.seconds - (spent - running.partFrom_s);
      parts.left.textContent = left > 0 ? say("plan.rest.left", { time: clock(left) }) : say("plan.rest.over");
    }
  }

  const overText = (minutes) => say("plan.over", { n: minutes });

  function hold() {
    practice.schedule.pause();
    draw();
  }

  function goOn() {
    practice.schedule.goOn();
    draw();
  }

  function stop() {
    practice.schedule.stop();
    practice.progress.leave();
    makePlan();
    draw();
    parts.head.focus();
  }

  // The screen.

  async function copyNotice() {
    const fresh = await practice.progress.askForCopy();
    if (!fresh) return null;
    return element("div", { class: "notice" }, element("p", {}, say("plan.copy", { n: fresh })),
      element("div", { class: "row" },
        element("button", { onclick: async () => { await practice.progressScreen.saveCopy(); parts.notice.replaceChildren(); } }, say("progress.copy.save")),
        element("button", { class: "link", onclick: async () => { await practice.progress.putOff(); parts.notice.replaceChildren(); } }, say("plan.later"))));
  }

  function draw() {
    const running = practice.schedule.running;
    const over = state.over ? element("p", { class: "over-now" }, overText(state.over)) : null;
    parts.body.replaceChildren(...[over, ...(running ? during() : before())].flat().filter(Boolean));
    parts.short.hidden = practice.progress.lasting;
    tick();
  }

  async function opened() {
    await practice.progress.refresh();
    if (!state.read) {
      state.read = true;
      state.minutes = MINUTES.find((n) => n === Number(parts.kept.minutes)) ?? USUAL_MINUTES;
    }
    if (!practice.schedule.current()) finish();
    if (!practice.schedule.running) makePlan();
    draw();
    parts.notice.replaceChildren(...[practice.schedule.running ? null : await copyNotice()].filter(Boolean));
  }

  /** Read what was kept: the minutes, a sheet, a plan that was under way. */
  async function readKept() {
    const { store } = practice.progress;
    const [minutes, sheet, running] = await Promise.all(["minutes", "sheet", "running"].map((name) => store.get(name)));
    parts.kept = { minutes };
    state.sheet = practice.teacherSheet?.sound(sheet) ?? null;
    if (!practice.schedule.running) practice.schedule.resume(running, day());
  }

  function build() {
    parts = {
      head: element("h1", { tabindex: "-1" }, say("plan.title")),
      body: element("div", { class: "plan" }),
      notice: element("div", { role: "status" }),
      short: element("p", { class: "wrong", hidden: true }, say("progress.not lasting")),
      clock: element("span", {}),
      left: element("span", {}),
      kept: {},
    };
    setInterval(tick, 1000);
    return element("section", { id: "screen-plan", class: "screen" }, parts.head, parts.short, parts.notice, parts.body);
  }

  // How it went.

  /**
   * Draw the answers of the visit in hand into an element of the screen for playing; nothing before a round is over,
   * except in a plan, where a visit may be answered as it stands. May be called as often as one likes.
   */
  function howItWent(where, item) {
    state.went = { where, item };
    const part = practice.schedule.current();
    const planned = part && part.phrase === item.phrase && practice.planParts.tonic(part.key) === practice.planParts.tonic(item.key) ? part : null;
    if (planned?.kind === "warm") {
      where.replaceChildren(element("div", { class: "went" }, element("p", {}, say("plan.warm.says")),
        element("div", { class: "row" }, element("button", { onclick: () => goTo(practice.schedule.move()) }, say("plan.next")))));
      return;
    }
    if (!planned && !practice.progress.pending(item)) {
      where.replaceChildren();
      return;
    }
    const buttons = practice.schedule.ANSWERS.map(({ said }) => element("button", { "data-said": said, onclick: () => answer(said) }, say(`plan.went.${said}`)));
    where.replaceChildren(element("div", { class: "went", role: "group", "aria-label": say("plan.went") },
      element("p", {}, say("plan.went")), element("div", { class: "row" }, buttons), planned && then()));
  }

  /** What comes after the part in hand. */
  function then() {
    const running = practice.schedule.running;
    const part = running.parts[running.place + 1];
    if (state.told) return element("p", { class: "over-now" }, overText(running.minutes));
    return part ? element("p", { class: "quiet" }, say("plan.then", { what: partText(part) })) : null;
  }

  async function answer(said) {
    const { where, item } = state.went;
    const part = practice.schedule.current();
    const planned = part && part.phrase === item.phrase && practice.planParts.tonic(part.key) === practice.planParts.tonic(item.key);
    await practice.progress.answered(item, said);
    where.replaceChildren();
    practice.tell(say("plan.went.kept"));
    if (!planned) return;
    practice.schedule.retempo(practice.progress.known());
    goTo(practice.schedule.move());
  }

  /** Draw the answers anew when a round is over. */
  function refresh() {
    if (state.went) howItWent(state.went.where, state.went.item);
  }

  document.addEventListener("visibilitychange", () => {
    if (!practice.schedule.running) return;
    if (document.hidden) {
      state.held = practice.schedule.running.since !== null;
      practice.schedule.pause();
    } else if (state.held) practice.schedule.goOn();
    if (parts && practice.shown?.() === "plan") draw();
  });

  // A pedal sends the keys of pages.
  addEventListener("keydown", (event) => {
    if (practice.shown?.() !== "plan" || event.key !== "PageDown" || event.ctrlKey || event.altKey || event.metaKey) return;
    const main = parts.body.querySelector("button.main");
    if (!main) return;
    event.preventDefault();
    main.click();
  });

  practice.screens.push({
    name: "plan", word: "practice.plan.screen", title: "practice.plan.screen", element: build,
    opened: async () => {
      parts.body.dataset.ready = "false";
      if (!state.begun) {
        state.begun = true;
        await readKept();
      }
      await opened();
      parts.body.dataset.ready = "true";
    },
    closed() {},
  });
  practice.planScreen = { howItWent, refresh };
})();
