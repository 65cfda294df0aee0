// The memory model of the practice page: what the library offers, and nothing of its cards, decks or grade words.

import { FSRSAlgorithm, default_w } from "ts-fsrs";

window.practice = window.practice || {};

const WEIGHTS = [...default_w];
const model = new FSRSAlgorithm({ w: WEIGHTS, enable_fuzz: false, enable_short_term: true });

window.practice.memoryModel = {
  /** The library's 21 weights, version 6 of its model. */
  weights: WEIGHTS,
  /** The next {stability, difficulty} of a memory (null: none yet) after so many days and an outcome from 1 to 4. */
  after: (memory, days, outcome) => model.next_state(memory, days, outcome),
  /** The chance of recall, 0 to 1, so many days after the last visit, for a stability in days. */
  recall: (days, stability) => model.forgetting_curve(days, stability),
  /** After how many days (a whole number, at least 1) the chance of recall has fallen to `wanted`. */
  days(stability, wanted) {
    return Math.max(1, Math.round(stability * model.calculate_interval_modifier(wanted)));
  },
};
