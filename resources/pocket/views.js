// What is seen: the work of a week, the beds, one bed, and the notes.

function bedHash(id) {
  return "#bed/" + encodeURIComponent(id);
}

function writeHash(kind, place) {
  return "#write/" + [kind, ...place.split("/")].map(encodeURIComponent).join("/");
}

function pageHeading(text) {
  return heading(1, text, { tabindex: "-1", id: "heading" });
}

function outOfYear() {
  if (data.first <= shownDay && shownDay <= data.last) return null;
  const parts = { first: dayWords(data.first), last: dayWords(data.last) };
  return element("p", { class: "notice" }, fill(words.out_of_year, parts));
}

function careSection(numbers) {
  if (!numbers.length) return null;
  return element(
    "section",
    { class: "care" },
    heading(2, words.care),
    element("ul", {}, numbers.map((number) => element("li", {}, data.cautions[number]))),
    element("p", {}, words.care_first),
  );
}

function weekOf(day) {
  const monday = mondayOf(day);
  return data.weeks.find((week) => week.monday === monday);
}

// -- work ----------------------------------------------------------------------------------------

function workView() {
  const week = weekOf(shownDay);
  const monday = mondayOf(shownDay);
  const title = week
    ? week.title
    : fill(words.from_to, { first: dayWords(monday), last: dayWords(shifted(monday, 6)) });
  const level = week && week.people.some((person) => person.name) ? 3 : 2;
  return [
    pageHeading(title),
    outOfYear(),
    week ? null : element("p", {}, words.no_work),
    (week ? week.people : []).map((person) => [
      person.name ? heading(2, person.name, { class: "person" }) : null,
      person.beds.map((of) => [
        element("h" + level, { class: "bed" }, of.bed ? bedLink(of.bed) : words.indoors),
        element("ul", { class: "lines" }, of.lines.map(([number, days]) => workLine(data.lines[number], days))),
      ]),
    ]),
    byHand(week ? week.people.flatMap((person) => person.beds.flatMap((of) => of.lines)) : []),
    careSection(week ? week.care : []),
  ];
}

// What the mark at a day means, where it is there.
function byHand(lines) {
  return lines.some(([, days]) => days.endsWith("*")) ? element("p", { class: "help" }, words.by_hand) : null;
}

function bedLink(id) {
  const name = bedName(id);
  return bedsById.has(id) ? link(bedHash(id), name, { dir: "auto" }) : name;
}

// A piece of work with its box to tick; what only tells what comes next has none.
function workLine(line, days) {
  const about = [
    element("span", { class: "work", dir: "auto" }, line.work),
    element("span", { class: "days" }, days),
    line.details ? element("span", { class: "details", dir: "auto" }, line.details) : null,
  ];
  if (line.told) return element("li", { class: "told" }, about);
  const tick = tickOf(line);
  const done = line.done || (tick ? tick.note.day : "");
  const box = element("input", {
    type: "checkbox",
    checked: Boolean(done) || line.done_before,
    disabled: Boolean(line.done) || line.done_before,
    "data-focus": "tick " + line.key,
    onchange: () => (tick ? untick(tick) : tickOff(line)),
  });
  const telling = done ? fill(words.done_on, { day: dayWords(done) }) : line.done_before ? words.done_before : "";
  const said = telling ? element("span", { class: "done" }, telling) : null;
  return element(
    "li",
    { class: telling ? "ticked" : null },
    element("label", { class: "tick" }, box, element("span", { class: "about" }, about, said)),
    isPicked(line)
      ? [
          link(writeHash("picked", "planting/" + line.planting), words.pick, { class: "button" }),
          telling ? null : element("span", { class: "help" }, words.pick_help),
        ]
      : null,
  );
}

function isPicked(line) {
  return ["pick", "lift and cure", "lift and store"].includes(line.task) && plantingsById.has(line.planting);
}

function tickOff(line) {
  if (!hasRoom()) {
    say(words.too_many);
    render();
    return;
  }
  const note = { id: newId(), kind: "done", day: shownDay, task: line.task };
  if (line.dressing) {
    note.dressing = line.dressing;
  } else {
    note.planting = line.planting;
    if (line.cover) note.cover = line.cover;
    const planting = plantingsById.get(line.planting);
    if (planting) note.was = identity(planting);
  }
  if (oneLine(state.by)) note.by = oneLine(state.by);
  putNote(note, line.key);
  say(fill(words.kept, { what: fill(words.pair, { first: line.work, second: dayWords(note.day) }) }));
  render();
}

function untick(entry) {
  withdraw([entry.note.id], noteWords(entry.note));
}

function withdraw(ids, what) {
  const gone = removeNotes(ids);
  const putBack = () => {
    keep((kept) => {
      const there = new Set(kept.notes.map((entry) => entry.note.id));
      kept.notes.push(...gone.filter((entry) => !there.has(entry.note.id)));
    });
    say("");
    render();
  };
  say(fill(words.removed, { what }), [words.put_back, putBack]);
  render();
}

// -- beds ----------------------------------------------------------------------------------------

function growsNow(planting) {
  return planting.first <= shownDay && shownDay <= planting.last;
}

function bedsView() {
  if (!data.beds.length) return [pageHeading(words.beds), element("p", {}, words.no_beds)];
  return [
    pageHeading(words.beds),
    outOfYear(),
    mapFrame(shownDay, (place) => {
      onResize = place;
    }),
    element(
      "ol",
      { class: "beds" },
      data.beds.map((bed) => {
        const now = plantingsOf.get(bed.id).filter(([, one]) => growsNow(one));
        const names = [...new Set(now.map(([, one]) => one.name))];
        return element(
          "li",
          {},
          link(
            bedHash(bed.id),
            [
              element("span", { class: "name", dir: "auto" }, bed.name),
              element("span", { class: "grows", dir: "auto" }, names.map(isolated).join(", ")),
            ],
          ),
        );
      }),
    ),
    element("div", { class: "row" }, link(writeHash("note", "garden"), words.write, { class: "button" })),
  ];
}

function bedView(id) {
  const bed = bedsById.get(id);
  if (!bed) return bedsView();
  const there = plantingsOf.get(id);
  const now = there.filter(([, one]) => growsNow(one));
  const later = there.filter(([, one]) => one.first > shownDay);
  const over = there.filter(([, one]) => one.last < shownDay);
  const week = weekOf(shownDay);
  const lines = (week ? week.people : []).flatMap((person) =>
    person.beds.filter((of) => of.bed === id).flatMap((of) => of.lines),
  );
  const notes = state.notes.filter(
    ({ note }) => note.bed === id || (plantingsById.get(note.planting) || {}).bed === id,
  );
  return [
    element("p", {}, link("#beds", words.back, { class: "back" })),
    pageHeading(bed.name),
    outOfYear(),
    element("div", { class: "row" }, link(writeHash("note", "bed/" + id), words.write, { class: "button main" })),
    heading(2, words.growing),
    now.length ? now.map(plantingCard) : element("p", {}, words.nothing_grows),
    heading(2, words.this_week),
    lines.length
      ? element("ul", { class: "lines" }, lines.map(([number, days]) => workLine(data.lines[number], days)))
      : element("p", {}, words.no_work_here),
    byHand(lines),
    notes.length ? [heading(2, words.notes), noteList(notes)] : null,
    plantingList(words.to_come, later),
    plantingList(words.over, over),
    bed.notes ? [heading(2, words.about_bed), element("p", { class: "lines-kept", dir: "auto" }, bed.notes)] : null,
    careSection(bed.care),
  ];
}

function plantingCard([id, planting]) {
  const place = "planting/" + id;
  const name = plantingWords(id, planting);
  const next = planting.days.filter(([day]) => day >= shownDay).slice(0, 2);
  return element(
    "section",
    { class: "planting" },
    heading(3, name),
    next.map(([day, what]) => element("p", { class: "next" }, fill(words.what_words, { what: dayWords(day), words: what }))),
    element(
      "div",
      { class: "row" },
      link(writeHash("picked", place), words.pick, {
        class: "button",
        "aria-label": fill(words.what_words, { what: words.pick, words: name }),
      }),
      link(writeHash("note", place), words.write, {
        class: "button",
        "aria-label": fill(words.write_about, { place: name }),
      }),
    ),
    element(
      "details",
      {},
      element("summary", {}, words.details),
      element(
        "dl",
        {},
        planting.facts.map(([label, text]) => [element("dt", {}, label), element("dd", { dir: "auto" }, text)]),
        planting.days.length
          ? [
              element("dt", {}, words.days_planned),
              planting.days.map(([day, what]) =>
                element("dd", {}, fill(words.what_words, { what: dayWords(day), words: what })),
              ),
            ]
          : null,
      ),
    ),
  );
}

function plantingList(title, plantings) {
  if (!plantings.length) return null;
  return [
    heading(2, title),
    element(
      "ul",
      { class: "plain" },
      plantings.map(([id, one]) =>
        element(
          "li",
          {},
          link(writeHash("note", "planting/" + id), one.name, {
            dir: "auto",
            "aria-label": fill(words.write_about, { place: plantingWords(id, one) }),
          }),
          element("span", { class: "days" }, fill(words.from_to, { first: dayWords(one.first), last: dayWords(one.last) })),
        ),
      ),
    ),
  ];
}

// -- notes ---------------------------------------------------------------------------------------

function noteList(entries) {
  const sorted = [...entries].sort((one, other) => (one.note.day < other.note.day ? 1 : -1));
  return element(
    "ul",
    { class: "notes" },
    sorted.map((entry) => {
      const { note } = entry;
      const what = noteWords(note);
      const status = atHome.has(note.id)
        ? words.at_home
        : entry.saved
          ? fill(words.was_saved, { day: dayWords(entry.saved) })
          : words.not_saved;
      return element(
        "li",
        {},
        element("p", { class: "what", dir: "auto" }, what),
        element(
          "p",
          { class: "days" },
          fill(words.pair, { first: dayWords(note.day), second: placeWords(note) }),
          note.by ? " · " + isolated(note.by) : "",
        ),
        element("p", { class: "status" }, status),
        element(
          "div",
          { class: "row" },
          atHome.has(note.id)
            ? null
            : link("#change/" + note.id, words.change, {
                class: "button",
                "aria-label": fill(words.change_of, { what }),
              }),
          button(words.remove, () => withdraw([note.id], what), { "aria-label": fill(words.remove_of, { what }) }),
        ),
      );
    }),
  );
}

function notesView() {
  const home = state.notes.filter((entry) => atHome.has(entry.note.id)).map((entry) => entry.note.id);
  const saved = state.notes.filter((entry) => entry.saved && !atHome.has(entry.note.id)).map((entry) => entry.note.id);
  const by = element("input", { type: "text", maxlength: 100, autocomplete: "name", value: state.by, dir: "auto" });
  by.addEventListener("input", () => {
    keep((kept) => {
      kept.by = by.value;
    });
  });
  return [
    pageHeading(words.notes),
    state.notes.length > home.length ? sendButtons() : null,
    state.notes.length ? null : element("p", {}, words.none_yet),
    element("div", { class: "row" }, link(writeHash("note", "garden"), words.write, { class: "button" })),
    state.notes.length ? noteList(state.notes) : null,
    element(
      "div",
      { class: "row" },
      home.length ? reallyButton(words.clear_home, home) : null,
      saved.length ? reallyButton(words.clear, saved) : null,
    ),
    field("by", words.by, by, words.by_help),
    element(
      "details",
      {},
      element("summary", {}, words.about),
      element("p", {}, words.about_words),
      element("p", {}, fill(words.made, { day: dayWords(data.made), year: data.year })),
      element("p", {}, words.sources),
      element("ul", {}, data.sources.map((source) => element("li", {}, source))),
    ),
  ];
}

// A button that asks before it removes several notes.
function reallyButton(label, ids) {
  let asked = false;
  const control = button(label, () => {
    if (asked) {
      withdraw(ids, fill(words.notes_number, { count: ids.length }));
      return;
    }
    asked = true;
    control.textContent = fill(words.really, { count: ids.length });
  });
  return control;
}
