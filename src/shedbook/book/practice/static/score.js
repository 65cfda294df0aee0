// A score on the screen: the widest of its layouts that leaves the staff large enough, marks on its notes, covered bars.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const STAFF_UNITS = 720;
  // 7 mm on the glass: phones show some 150 to 160 CSS pixels an inch, whatever the name says (common practice).
  const LEAST_STAFF_PX = 43;
  const MOST_STAFF_PX = 76;
  const MARK_HALF = 190;
  const ABOVE = 260;
  const BELOW = 260;
  const ROUND_HEAD = 200;
  const LOOP_OUT = 130;
  const LAST_LINE = 90;
  const CLEF = 740;
  const CLEF_AND_METRE = 1180;
  const SVG = "http://www.w3.org/2000/svg";

  function shape(tag, attributes) {
    const found = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) found.setAttribute(name, value);
    return found;
  }

  /** A score in an element: `show(part, place)` a key of it, `mark(note)`, `point(notes)`, `cover(bars)`, `loop(bars)`. */
  practice.score = (holder) => {
    holder.classList.add("score");
    let key = null;
    let layout = null;
    let svg = null;
    let now = null;
    let marked = -1;
    let pointed = [];
    let covered = null;
    let looped = null;

    function room() {
      const style = getComputedStyle(holder);
      return holder.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
    }

    function choose() {
      const width = room();
      const fits = key.layouts.filter((one) => (one.box[2] * LEAST_STAFF_PX) / STAFF_UNITS <= width);
      return fits.length ? fits[fits.length - 1] : key.layouts[0];
    }

    function draw() {
      if (!key || !holder.clientWidth) return;
      const chosen = choose();
      if (chosen !== layout) {
        layout = chosen;
        const [left, top, width, height] = layout.box;
        svg = shape("svg", { viewBox: `${left} ${top} ${width} ${height}`, role: "img", "aria-label": key.alt, fill: "currentColor" });
        svg.innerHTML = layout.svg;
        now = shape("rect", { class: "now", rx: 120, width: 2 * MARK_HALF, visibility: "hidden" });
        svg.prepend(now);
        holder.replaceChildren(svg);
        marked = -1;
        points();
        covers();
        loops();
      }
      const [, , width, height] = layout.box;
      const scale = Math.min(room() / width, MOST_STAFF_PX / STAFF_UNITS);
      svg.style.width = `${width * scale}px`;
      svg.style.height = `${height * scale}px`;
    }

    function placeOf(note) {
      for (const [line, [, top, , notes]] of layout.lines.entries()) {
        const found = notes.find(([index]) => index === note);
        if (found) return { x: found[1], top, line, head: top + Number(svg.querySelector(`#sn${note} use`)?.getAttribute("y") ?? 0) };
      }
      return null;
    }

    /** Round the staff at a note; on ledger lines round the note too. */
    function box({ x, top, head }) {
      const y = Math.min(top - ABOVE, head - ROUND_HEAD);
      return { x: x - MARK_HALF, y, height: Math.max(top + STAFF_UNITS + BELOW, head + ROUND_HEAD) - y };
    }

    function points() {
      if (!svg) return;
      for (const old of svg.querySelectorAll(".pointed")) old.remove();
      for (const note of pointed) {
        const place = placeOf(note);
        if (!place) continue;
        const { x, y, height } = box(place);
        now.after(shape("rect", { class: "pointed", rx: 120, x, y, width: 2 * MARK_HALF, height }));
      }
    }

    function covers() {
      if (!svg) return;
      for (const old of svg.querySelectorAll(".cover, .cover-number")) old.remove();
      if (!covered) return;
      for (const [place, [first, top, edges]] of layout.lines.entries()) {
        const [upper, lower] = extent(place);
        for (let bar = 0; bar + 1 < edges.length; bar += 1) {
          const number = first + bar;
          if (!covered.has(number)) continue;
          const clef = bar ? 20 : place ? CLEF : CLEF_AND_METRE;
          const [x, width] = [edges[bar] + clef, edges[bar + 1] - edges[bar] - clef - 20];
          svg.append(shape("rect", { class: "cover", x, y: upper, width, height: lower - upper }));
          const said = shape("text", { class: "cover-number", x: x + width / 2, y: top + STAFF_UNITS * 0.68, "text-anchor": "middle", "font-size": 460 });
          said.textContent = number || "";
          svg.append(said);
        }
      }
    }

    /** What does not go round is paler; a stroke stands where the loop begins and where it ends. */
    function loops() {
      if (!svg) return;
      for (const old of svg.querySelectorAll(".beside-loop, .loop")) old.remove();
      if (!looped) return;
      for (const [place, [first, top, edges]] of layout.lines.entries()) {
        const [upper, lower] = extent(place);
        for (let bar = 0; bar + 1 < edges.length; bar += 1) {
          const number = first + bar;
          const [x, width] = [edges[bar], edges[bar + 1] - edges[bar] + (bar + 2 === edges.length ? LAST_LINE : 0)];
          if (number < looped[0] || number > looped[1]) svg.append(shape("rect", { class: "beside-loop", x, y: upper, width, height: lower - upper }));
          for (const at of [number === looped[0] ? x : null, number === looped[1] ? edges[bar + 1] : null]) {
            if (at !== null) svg.append(shape("path", { class: "loop", d: `M${at} ${top - LOOP_OUT}V${top + STAFF_UNITS + LOOP_OUT}` }));
          }
        }
      }
    }

    /** From where to where a line of the score has the room: half-way between what is drawn of it and of the next. */
    function extent(place) {
      const [, boxTop, , boxHeight] = layout.box;
      const drawn = (at) => {
        const { y, height } = svg.querySelectorAll(":scope > g")[at].getBBox();
        return [layout.lines[at][1] + y, layout.lines[at][1] + y + height];
      };
      const own = drawn(place);
      return [
        place ? (drawn(place - 1)[1] + own[0]) / 2 : boxTop,
        place + 1 < layout.lines.length ? (own[1] + drawn(place + 1)[0]) / 2 : boxTop + boxHeight,
      ];
    }

    new ResizeObserver(draw).observe(holder);

    return {
      show(part, place) {
        key = part.keys[place];
        layout = null;
        draw();
      },
      clear() {
        key = layout = svg = null;
        holder.replaceChildren();
      },
      /** Mark the struck note that sounds, -1 for none; the line in which it stands is brought into sight. */
      mark(note) {
        if (!svg || note === marked) return;
        marked = note;
        const place = note < 0 ? null : placeOf(note);
        if (!place) {
          now.setAttribute("visibility", "hidden");
          return;
        }
        const { x, y, height } = box(place);
        now.setAttribute("x", x);
        now.setAttribute("y", y);
        now.setAttribute("height", height);
        now.setAttribute("visibility", "visible");
      },
      /** Bring the line of a struck note into sight where the score is higher than the screen. */
      seek(note) {
        const place = svg && note >= 0 ? placeOf(note) : null;
        if (!place) return;
        const frame = svg.getBoundingClientRect();
        const scale = frame.height / layout.box[3];
        const [upper, lower] = extent(place.line).map((y) => frame.top + (y - layout.box[1]) * scale);
        const foot = document.querySelector("#screen-play .hand")?.getBoundingClientRect().top ?? innerHeight;
        // Chords stand at the top of a line: where there is no room for all of it, they are to be seen.
        const by = upper < 0 || lower - upper > foot ? upper : Math.min(lower - foot, upper);
        if (upper < 0 || lower > foot) scrollBy({ top: by - 4, behavior: practice.calm() ? "auto" : "smooth" });
      },
      point(notes) {
        pointed = notes;
        points();
      },
      /** Cover bars, by their numbers; null covers none. */
      cover(bars) {
        covered = bars && new Set(bars);
        covers();
      },
      /** Show which bars go round, the first and the last; null for the whole phrase. */
      loop(bars) {
        looped = bars;
        loops();
      },
      bars() {
        return layout ? layout.lines.flatMap(([first, , edges]) => edges.slice(1).map((_, place) => first + place)) : [];
      },
      draw,
      layout: () => layout,
    };
  };

  practice.calm = () => matchMedia("(prefers-reduced-motion: reduce)").matches;
})();
