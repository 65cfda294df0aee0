// Stands in for `progress.js` where that is not there: keeps values under the book's own name, in this browser alone.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const named = (name) => `shedbook ${practice.book.id} ${name}`;
  practice.progress = {
    store: {
      async get(name) {
        try {
          return JSON.parse(localStorage.getItem(named(name)) ?? "null");
        } catch {
          return null;
        }
      },
      async set(name, value) {
        try {
          localStorage.setItem(named(name), JSON.stringify(value));
        } catch {
          // Without storage it holds until the page is closed.
        }
      },
    },
  };
})();
