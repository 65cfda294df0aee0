// What a reader chooses: the phrase, from a list with a line to search in; the instrument, its tuning, light or dark.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;

  const TUNINGS = [440, 441, 442, 443, 432, 435, 438];
  const THEMES = ["", "light", "dark"];

  /** Let the reader choose a phrase; `chosen` is called with its id. */
  practice.choose = (chosen) => {
    const search = element("input", { type: "search", "aria-label": say("choose.search"), placeholder: say("choose.search"), autofocus: matchMedia("(pointer: fine)").matches });
    const list = element("ul", { class: "phrases" });
    const dialog = element(
      "dialog",
      { "aria-label": say("choose.phrase"), class: "choose" },
      element("form", { method: "dialog", class: "row" }, element("h2", {}, say("choose.phrase")), element("button", { value: "" }, say("close"))),
      search,
      list,
    );
    const plain = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
    function fill() {
      const wanted = plain(search.value);
      const found = practice.book.phrases.filter((one) => plain(`${one.number} ${one.title}`).includes(wanted));
      list.replaceChildren(
        ...found.map((one) =>
          element(
            "li",
            {},
            element(
              "button",
              {
                "aria-current": one.id === practice.chosen.phrase ? "true" : null,
                onclick: () => {
                  dialog.close();
                  chosen(one.id);
                },
              },
              element("span", { class: "number" }, String(one.number)),
              element("span", {}, one.title),
            ),
          ),
        ),
      );
    }
    search.addEventListener("input", fill);
    fill();
    dialog.addEventListener("close", () => dialog.remove());
    document.body.append(dialog);
    dialog.showModal();
    list.querySelector("[aria-current]")?.scrollIntoView({ block: "center" });
  };

  /** Let the reader choose a key of the phrase in hand; `chosen` is called when the key in hand is another one. */
  practice.chooseKey = (chosen) => {
    const one = practice.phrase(practice.chosen.phrase);
    const dialog = element("dialog", { "aria-label": say("choose.key"), class: "choose" });
    const take = (key) => {
      dialog.close();
      practice.chosen.key = key;
      chosen();
    };
    dialog.append(
      element("form", { method: "dialog", class: "row" }, element("h2", {}, say("choose.key")), element("button", { value: "" }, say("close"))),
      element(
        "ul",
        { class: "all-keys" },
        one.keys.map(({ key }, place) =>
          element("li", {}, element("button", { "aria-current": place === practice.keyPlace() ? "true" : null, onclick: () => take(key) }, practice.keyName(one, place))),
        ),
      ),
    );
    dialog.addEventListener("close", () => dialog.remove());
    document.body.append(dialog);
    dialog.showModal();
  };

  /** What stands over a screen: the phrase in hand, which can be changed, and its key where `keys` says so. */
  practice.head = (changed, { keys = true } = {}) => {
    const title = element("button", { class: "phrase-name", "aria-haspopup": "dialog", onclick: () => practice.choose(to) });
    const key = element("button", { class: "key-name", "aria-haspopup": "dialog", onclick: () => practice.chooseKey(done) });
    const head = element("div", { class: "over" }, title);
    const phrase = () => practice.phrase(practice.chosen.phrase);
    function to(id) {
      practice.chosen.phrase = id;
      practice.chosen.key = practice.phrase(id).home;
      done();
    }
    function by(step) {
      const all = phrase().keys;
      practice.chosen.key = all[(practice.keyPlace() + step + all.length) % all.length].key;
      done();
    }
    function done() {
      practice.remember();
      changed();
    }
    if (keys) {
      const button = (sign, row, step) => element("button", { "aria-label": say(row), onclick: () => by(step) }, sign);
      head.append(element("div", { class: "keys" }, button("‹", "play.key.before", -1), key, button("›", "play.key.next", 1)));
    }
    head.update = () => {
      title.textContent = say("play.phrase", { n: phrase().number, title: phrase().title });
      key.textContent = practice.keyName(phrase(), practice.keyPlace());
    };
    return head;
  };

  /** The settings of the reader: what is asked once. `changed` is called when what is shown has to change. */
  practice.readerSettings = (changed) => {
    const chosen = practice.chosen;
    const line = (row, values, current, words, set, kind = null) => {
      const select = element("select", { class: kind }, values.map((value) => element("option", { value, selected: value === current }, words(value))));
      select.addEventListener("change", () => {
        set(select.value);
        practice.remember();
      });
      return element("label", { class: "line" }, say(row), select);
    };
    return element(
      "div",
      {},
      line("reader.instrument", practice.book.instruments.map((one) => one.slug), practice.instrument().slug,
        (slug) => practice.book.instruments.find((one) => one.slug === slug).name,
        (slug) => {
          chosen.instrument = slug;
          document.querySelector(".asked")?.remove();
          changed();
        }, "instrument"),
      line("reader.tuning", TUNINGS, chosen.tuning, (hertz) => say("reader.tuning.n", { n: hertz }), (hertz) => {
        chosen.tuning = Number(hertz);
      }),
      line("reader.theme", THEMES, chosen.theme, (theme) => say(`reader.theme.${theme || "system"}`), (theme) => {
        chosen.theme = theme;
        if (theme) document.documentElement.dataset.theme = theme;
        else delete document.documentElement.dataset.theme;
      }),
    );
  };
})();
