// A text field whose bars stand where the bars of the score stand. One editor serves line, changes and scales.
//
// The text may have line feeds, for the author's file has them. The field shows a space in the place of each,
// and `full` keeps them: every change of the field is made in `full` too.

import { Compartment, EditorState, Prec, StateEffect, StateField } from "@codemirror/state";
import { Decoration, EditorView, keymap } from "@codemirror/view";
import { history, historyKeymap, isolateHistory, redo, standardKeymap, undo } from "@codemirror/commands";

const setMarks = StateEffect.define();

const shownOf = (text) => text.replace(/\n/g, " ");

/** The offsets of the bars of a text: each with the bar line behind it. */
export function barsOf(text) {
  const found = [];
  let start = 0;
  for (let at = 0; at <= text.length; at += 1) {
    if (at === text.length || text[at] === "|") {
      const end = Math.min(text.length, at + 1);
      if (text.slice(start, at).trim() || (found.length && at < text.length)) found.push([start, end]);
      else if (found.length) found[found.length - 1][1] = end;
      if (!found.length) continue; // white space and a bar line at the very start belong to the first bar
      start = end;
    }
  }
  if (!found.length) return text.length ? [[0, text.length]] : [];
  found[0][0] = 0;
  return found;
}

const barMarks = EditorView.decorations.compute(["doc"], (state) => {
  const marks = barsOf(state.doc.toString())
    .filter(([start, end]) => end > start)
    .map(([start, end], index) => Decoration.mark({ class: `bar bar-${index}` }).range(start, end));
  return Decoration.set(marks);
});

const placedMarks = StateField.define({
  create: () => Decoration.none,
  update(marks, transaction) {
    let found = marks.map(transaction.changes);
    for (const effect of transaction.effects) {
      if (effect.is(setMarks)) {
        const length = transaction.state.doc.length;
        const ranges = effect.value
          .map(([from, to, name]) => [Math.min(from, length), Math.min(Math.max(to, from + 1), length), name])
          .filter(([from, to]) => to > from)
          .sort((one, two) => one[0] - two[0] || one[1] - two[1])
          .map(([from, to, name]) => Decoration.mark({ class: name }).range(from, to));
        found = Decoration.set(ranges);
      }
    }
    return found;
  },
  provide: (field) => EditorView.decorations.from(field),
});

export class BarEditor {
  /**
   * @param {HTMLElement} parent where the field goes
   * @param {object} given `label`, `describedBy`, `nonce`, and what is called: `onText(full)`, `onCursor(from, to)`
   */
  constructor(parent, given) {
    this.given = given;
    this.full = "";
    this.quiet = false;
    this.marks = { problem: null, chosen: null, sounding: null };
    this.locked = new Compartment();
    this.sheet = new CSSStyleSheet();
    this.name = `bars-${Math.random().toString(36).slice(2)}`;
    parent.classList.add(this.name);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, this.sheet];
    const attributes = { "aria-label": given.label, spellcheck: "false", autocapitalize: "off", autocorrect: "off" };
    if (given.describedBy) attributes["aria-describedby"] = given.describedBy;
    this.view = new EditorView({
      parent,
      state: EditorState.create({
        extensions: [
          history(),
          Prec.highest(keymap.of([{ key: "Enter", run: () => this.insert(" | ") }, ...(given.keys ?? [])])),
          keymap.of([...historyKeymap, ...standardKeymap]),
          EditorView.lineWrapping,
          EditorView.contentAttributes.of(attributes),
          EditorView.clipboardInputFilter.of(shownOf),
          placedMarks,
          Prec.lowest(barMarks),
          this.locked.of(EditorState.readOnly.of(false)),
          given.nonce ? EditorView.cspNonce.of(given.nonce) : [],
          EditorView.updateListener.of((update) => this.updated(update)),
        ],
      }),
    });
  }

  updated(update) {
    if (update.docChanged) {
      let moved = 0;
      update.changes.iterChanges((from, to, start, end, inserted) => {
        const text = inserted.toString();
        this.full = this.full.slice(0, from + moved) + text + this.full.slice(to + moved);
        moved += text.length - (to - from);
      });
      if (!this.quiet) this.given.onText?.(this.full);
    }
    if (update.selectionSet && !this.quiet) {
      const { from, to } = update.state.selection.main;
      this.given.onCursor?.(from, to, update.view.hasFocus);
    }
  }

  get text() {
    return this.full;
  }

  /** Put another text in, as a change that the author did not type; the cursor stays where it was in its bar. */
  setText(text) {
    if (text === this.full) return;
    const before = shownOf(this.full);
    const after = shownOf(text);
    let start = 0;
    while (start < before.length && start < after.length && before[start] === after[start]) start += 1;
    let tail = 0;
    const most = Math.min(before.length, after.length) - start;
    while (tail < most && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail += 1;
    this.quiet = true;
    this.view.dispatch({
      changes: { from: start, to: before.length - tail, insert: after.slice(start, after.length - tail) },
    });
    this.quiet = false;
    this.full = text;
  }

  /** Put text at the cursor as if it were typed. */
  insert(text) {
    this.view.dispatch(this.view.state.replaceSelection(text), { userEvent: "input.type", scrollIntoView: true });
    return true;
  }

  /** Write a text in the place of the whole, as the author's own step that can be taken back. */
  write(text) {
    const length = this.view.state.doc.length;
    const after = shownOf(text);
    const before = this.view.state.doc.toString();
    let start = 0;
    while (start < before.length && start < after.length && before[start] === after[start]) start += 1;
    let tail = 0;
    const most = Math.min(before.length, after.length) - start;
    while (tail < most && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail += 1;
    this.view.dispatch({
      changes: { from: start, to: length - tail, insert: after.slice(start, after.length - tail) },
      userEvent: "input",
      annotations: isolateHistory.of("full"),
    });
  }

  /** Write something in the place of parts, `[[from, to, text], …]`, as one step that can be taken back. */
  replace(...parts) {
    this.view.dispatch({
      changes: parts.map(([from, to, insert]) => ({ from, to, insert })),
      userEvent: "input",
      annotations: isolateHistory.of("full"),
    });
  }

  undo() {
    return undo(this.view);
  }

  redo() {
    return redo(this.view);
  }

  select(from, to, focus = false) {
    const length = this.view.state.doc.length;
    const anchor = Math.min(from, length);
    this.quiet = true;
    this.view.dispatch({ selection: { anchor, head: Math.min(to, length) } });
    this.quiet = false;
    if (focus) this.view.focus();
  }

  get cursor() {
    return this.view.state.selection.main.head;
  }

  get focused() {
    return this.view.hasFocus;
  }

  focus() {
    this.view.focus();
  }

  mark(kind, range) {
    const before = this.marks[kind];
    if (before === range || (before && range && before[0] === range[0] && before[1] === range[1])) return;
    this.marks[kind] = range;
    const marks = Object.entries(this.marks)
      .filter(([, one]) => one)
      .map(([name, [from, to]]) => [from, to, `mark-${name}`]);
    this.view.dispatch({ effects: setMarks.of(marks) });
  }

  lock(locked) {
    this.view.dispatch({ effects: this.locked.reconfigure(EditorState.readOnly.of(locked)) });
  }

  /** Say how wide each bar is and how far in it begins, in pixels: [[width, indent], …]; none for plain text. */
  layOut(bars) {
    const rules = bars.map(
      ([width, indent], index) =>
        `.${this.name} .bar-${index} { width: ${width.toFixed(1)}px; margin-left: ${indent.toFixed(1)}px; }`,
    );
    const text = rules.join("\n");
    if (text === this.rules) return;
    this.rules = text;
    this.sheet.replaceSync(text);
    this.view.requestMeasure();
  }
}
