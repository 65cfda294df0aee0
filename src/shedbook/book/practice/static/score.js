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
  const CLEF = 740;
  const CLEF_AND_METRE = 1180;
  const SVG = "http://www.w3.org/2000/svg";

  function shape(tag, attributes) {
    const found = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) found.setAttribute(name, value);
    return found;
  }

  /** A score in an element: `show(part, place)` a key of it, `mark(note)`, `point(notes)`, `cover(bars)`. */
  practice.score = (holder) => {
    holder.classList.add("score");
    let key = null;
    let layout = null;
    let svg = null;
    let now = null;
    let marked = -1;
    let pointed = [];
    let covered = null;

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
      }
      const [, , width, height] = layout.box;
      const scale = Math.min(room() / width, MOST_STAFF_PX / STAFF_UNITS);
      svg.style.width = `${width * scale}px`;
      svg.style.height = `${height * scale}px`;
    }

    function placeOf(note) {
      for (const [, top, , notes] of layout.lines) {
        const found = notes.find(([index]) => index === note);
        if (found) return { x: found[1], top };
      }
      return null;
    }

    function box(place) {
      return { x: place.x - MARK_HALF, y: place.top - ABOVE, height: STAFF_UNITS + ABOVE + BELOW };
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
      const [, boxTop, , boxHeight] = layout.box;
      for (const [place, [first, top, edges]] of layout.lines.entries()) {
        const before = layout.lines[place - 1];
        const after = layout.lines[place + 1];
        const upper = before ? (before[1] + STAFF_UNITS + top) / 2 : boxTop;
        const lower = after ? (top + STAFF_UNITS + after[1]) / 2 : boxTop + boxHeight;
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
        const top = frame.top + (place.top - layout.box[1] - 900) * scale;
        const bottom = top + 2600 * scale;
        const foot = document.querySelector("#screen-play .hand")?.getBoundingClientRect().top ?? innerHeight;
        if (top < 0 || bottom > foot) scrollBy({ top: top - 8, behavior: practice.calm() ? "auto" : "smooth" });
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
      bars() {
        return layout ? layout.lines.flatMap(([first, , edges]) => edges.slice(1).map((_, place) => first + place)) : [];
      },
      draw,
      layout: () => layout,
    };
  };

  practice.calm = () => matchMedia("(prefers-reduced-motion: reduce)").matches;
})();
