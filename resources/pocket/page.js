// The frame of the page: where one is, and what was just done.

let view = null;

const page = document.getElementById("page");
const message = element("div", { role: "status", class: "message" });
const main = element("main", {});
const nav = element("nav", { "aria-label": words.pages });
const head = element("header", {});
page.append(head, main, element("footer", {}, message, nav));

// Say what was done, with a button that takes it back. It stays until the next thing is said.
function say(text, action) {
  message.replaceChildren(...(text ? [element("p", {}, text)] : []));
  if (text && action) message.append(button(action[0], action[1]));
}

function places() {
  return location.hash
    .replace(/^#/, "")
    .split("/")
    .map((part) => {
      try {
        return decodeURIComponent(part);
      } catch (error) {
        return "";
      }
    });
}

// Back to where one was before a form, or to the notes where there is nothing before it.
let before = "#work";
function leave() {
  location.hash = before;
}

function content() {
  const [name, ...rest] = places();
  const draft = state.draft && state.draft.hash === location.hash ? state.draft.form : null;
  switch (name) {
    case "beds":
      return bedsView();
    case "bed":
      return bedView(rest[0]);
    case "notes":
      return notesView();
    case "write": {
      const kind = choices.kinds.some((pair) => pair[0] === rest[0]) ? rest[0] : "note";
      return writeView(Object.assign(emptyForm(kind, rest.slice(1).join("/") || "garden"), draft));
    }
    case "change": {
      const entry = entryOf(rest[0]);
      return entry && !atHome.has(entry.note.id) ? writeView(Object.assign(formOf(entry.note), draft)) : notesView();
    }
    default:
      return workView();
  }
}

function isForm() {
  return ["write", "change"].includes(places()[0]);
}

function headContent() {
  const step = places()[0] === "beds" || places()[0] === "bed" ? 1 : 7;
  const input = element("input", { type: "date", id: "day", value: shownDay, "data-focus": "day" });
  input.addEventListener("change", () => input.value && showDay(input.value));
  const name = element("p", { class: "garden", dir: "auto" }, data.garden.name);
  const problem = storageProblem ? element("p", { role: "alert", class: "notice" }, storageProblem) : null;
  if (isForm() || places()[0] === "notes") return [element("div", { class: "top" }, name), problem];
  const back = button(words.today, () => showDay(today()), { "data-focus": "today" });
  return [
    element("div", { class: "top" }, name, shownDay === today() ? null : back),
    problem,
    element(
      "div",
      { class: "day" },
      button("‹", () => showDay(shifted(shownDay, -step)), {
        "aria-label": step === 1 ? words.day_before : words.week_before,
        "data-focus": "before",
      }),
      element("label", { for: "day", class: "unseen" }, words.day_shown),
      input,
      button("›", () => showDay(shifted(shownDay, step)), {
        "aria-label": step === 1 ? words.day_after : words.week_after,
        "data-focus": "after",
      }),
    ),
  ];
}

function showDay(day) {
  if (!DAY.test(day)) return;
  shownDay = day;
  chosenDay = day !== today();
  render();
}

function navContent() {
  const name = places()[0];
  const here = { bed: "beds", write: "", change: "notes", "": "work" }[name];
  const current = here === undefined ? name : here;
  const number = state.notes.filter((entry) => !atHome.has(entry.note.id)).length;
  const notes = number ? fill(words.notes_number, { count: number }) : words.notes;
  return [
    ["work", words.work],
    ["beds", words.beds],
    ["notes", notes],
  ].map(([target, label]) =>
    link("#" + target, label, { "aria-current": current === target ? "page" : null, "data-focus": "nav " + target }),
  );
}

// Show everything anew; what had the focus has it again, and a new view begins at its heading.
function render() {
  const focused = document.activeElement && document.activeElement.getAttribute("data-focus");
  const started = view !== null;
  const moved = view !== location.hash;
  if (moved && !isForm()) before = location.hash || "#work";
  view = location.hash;
  onResize = null;
  head.replaceChildren(...headContent().filter(Boolean));
  main.replaceChildren(...content().flat(Infinity).filter(Boolean));
  nav.replaceChildren(...navContent());
  const title = document.getElementById("heading");
  document.title = fill(words.title, { garden: data.garden.name, place: title ? title.textContent : "" });
  if (moved) {
    window.scrollTo(0, 0);
    if (title && started) title.focus({ preventScroll: true });
  } else if (focused) {
    const again = [...document.querySelectorAll("[data-focus]")].find(
      (one) => one.getAttribute("data-focus") === focused,
    );
    if (again) again.focus({ preventScroll: true });
  }
}

window.addEventListener("hashchange", () => {
  if (!isForm() && !/^#(write|change)\//.test(view)) say("");
  render();
});
window.addEventListener("storage", (event) => {
  if (event.key === STORAGE_KEY && !isForm()) {
    state = readState(state);
    render();
  }
});
window.addEventListener("resize", () => onResize && onResize());
window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => onResize && onResize());
document.addEventListener("visibilitychange", () => {
  if (!document.hidden && !chosenDay && shownDay !== today() && !isForm()) showDay(today());
});
render();
