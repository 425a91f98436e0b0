// The page's data, its notes, and where they are kept: the browser's own storage, or memory where that is off.

const data = JSON.parse(document.getElementById("data").textContent);
const words = data.words;
const choices = data.choices;
const STORAGE_KEY = "bedwright-notes-" + data.garden.key;
// More notes than this would not be read at home in one file, whose lines are wider than what is kept. [bytes, notes]
const MOST_BYTES = 1500000;
const MOST_NOTES = 5000;
const NOTE_ID = new RegExp("^" + data.note_id + "$");
const DAY = /^\d{4}-\d\d-\d\d$/;
const bedsById = new Map(data.beds.map((bed) => [bed.id, bed]));
const plantingsById = new Map(Object.entries(data.plantings));
const atHome = new Set(data.at_home);
const plantingsOf = new Map(data.beds.map((bed) => [bed.id, []]));
for (const pair of plantingsById) {
  if (plantingsOf.has(pair[1].bed)) plantingsOf.get(pair[1].bed).push(pair);
}

// A sentence with its parts filled in; what a part holds is not looked at again.
function fill(sentence, parts) {
  return sentence.replace(/\{(\w+)\}/g, (whole, name) => (name in parts ? String(parts[name]) : whole));
}

// A name inside a sentence, whatever the direction of its script.
function isolated(name) {
  return "\u2068" + name + "\u2069";
}

// The beginning of a text; no sign at its end is cut in two.
function cut(text, most) {
  return text.length <= most ? text : text.slice(0, most).replace(/[\ud800-\udbff]$/, "");
}

// A text as one line without control characters, as names are at home.
function oneLine(text) {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g, " ").trim();
}

// What a planting was when the page was made, by which it is known again at home.
function identity(planting) {
  return { crop: planting.crop, year: planting.year };
}

function labelOf(pairs, key) {
  const found = pairs.find((pair) => pair[0] === key);
  return found ? found[1] : String(key);
}

function decimal(number) {
  return String(number).replace(".", choices.decimal);
}

// -- days: texts such as 2026-05-03 --------------------------------------------------------------

function today() {
  const now = new Date();
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function shifted(day, days) {
  const at = new Date(day + "T12:00:00Z");
  at.setUTCDate(at.getUTCDate() + days);
  return at.toISOString().slice(0, 10);
}

function weekdayOf(day) {
  return (new Date(day + "T12:00:00Z").getUTCDay() + 6) % 7;
}

function mondayOf(day) {
  return shifted(day, -weekdayOf(day));
}

function dayWords(day) {
  const [year, month, date] = day.split("-").map(Number);
  return fill(words.day_month_year, { day: date, month: choices.months[month - 1], year });
}

// The day shown, whether it was chosen, and what places the plan anew where the window changes.
let shownDay = data.day || today();
let chosenDay = Boolean(data.day);
let onResize = null;

// -- what is kept --------------------------------------------------------------------------------

let storage = null;
let storageProblem = "";
try {
  storage = window.localStorage;
  storage.setItem(STORAGE_KEY + "-test", "1");
  storage.removeItem(STORAGE_KEY + "-test");
} catch (error) {
  storage = null;
  storageProblem = words.storage_off;
}

function emptyState() {
  return { version: 1, by: "", draft: null, notes: [] };
}

// Whether an entry of the list can be shown: whatever a browser kept is looked at before it is believed.
function isEntry(entry) {
  const note = entry && entry.note;
  return (
    Boolean(note) &&
    typeof note === "object" &&
    typeof note.id === "string" &&
    NOTE_ID.test(note.id) &&
    typeof note.day === "string" &&
    DAY.test(note.day) &&
    choices.kinds.some((kind) => kind[0] === note.kind) &&
    ["words", "by", "planting", "bed", "dressing", "task"].every(
      (name) => note[name] === undefined || typeof note[name] === "string",
    ) &&
    (note.kind !== "picked" || (Boolean(note.amount) && typeof note.amount.value === "number"))
  );
}

function readState(before) {
  if (!storage) return before;
  let text = null;
  try {
    text = storage.getItem(STORAGE_KEY);
    if (text === null) return emptyState();
    const found = JSON.parse(text);
    if (!found || found.version !== 1 || !Array.isArray(found.notes)) throw new Error("not a list");
    return {
      version: 1,
      by: typeof found.by === "string" ? cut(found.by, 200) : "",
      draft: found.draft && typeof found.draft === "object" ? found.draft : null,
      notes: found.notes
        .filter(isEntry)
        .map((entry) => ({ note: entry.note, key: String(entry.key || ""), saved: String(entry.saved || "") })),
    };
  } catch (error) {
    if (text !== null) {
      try {
        storage.setItem(STORAGE_KEY + "-damaged", text);
        storage.removeItem(STORAGE_KEY);
      } catch (again) {
        storageProblem = words.storage_full;
      }
      storageProblem = words.storage_damaged;
    }
    return emptyState();
  }
}

let state = readState(emptyState());

// Change what is kept. Another tab may have written meanwhile, so it is read anew before.
function keep(change) {
  state = storageProblem === words.storage_full ? state : readState(state);
  change(state);
  if (!storage) return;
  try {
    storage.setItem(STORAGE_KEY, JSON.stringify(state));
    if (storageProblem === words.storage_full) storageProblem = "";
  } catch (error) {
    storageProblem = words.storage_full;
  }
}

function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return "note-" + Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// Whether there is room for another note in a file that is read at home.
function hasRoom() {
  const size = new TextEncoder().encode(JSON.stringify(state.notes)).length;
  return size < MOST_BYTES && state.notes.length < MOST_NOTES;
}

function putNote(note, key) {
  keep((kept) => {
    const entry = { note, key: key || "", saved: "" };
    const at = kept.notes.findIndex((one) => one.note.id === note.id);
    if (at < 0) kept.notes.push(entry);
    else kept.notes[at] = entry;
    kept.draft = null;
  });
}

function removeNotes(ids) {
  const gone = state.notes.filter((entry) => ids.includes(entry.note.id));
  keep((kept) => {
    kept.notes = kept.notes.filter((entry) => !ids.includes(entry.note.id));
  });
  return gone;
}

function entryOf(id) {
  return state.notes.find((entry) => entry.note.id === id);
}

// The note that ticks a piece of work off.
function tickOf(line) {
  // Work that is done again and again is ticked in each week.
  return state.notes.find(
    (entry) =>
      entry.key === line.key &&
      entry.note.kind === "done" &&
      (!line.every || mondayOf(entry.note.day) === mondayOf(shownDay)),
  );
}

// -- notes in words ------------------------------------------------------------------------------

function bedName(id) {
  const bed = bedsById.get(id);
  return bed ? bed.name : data.other_beds[id] || words.gone;
}

// The name of a planting, with its days where another one in its bed has the same name.
function plantingWords(id, planting) {
  const there = plantingsOf.get(planting.bed) || [];
  if (!there.some(([other, one]) => other !== id && one.name === planting.name)) return planting.name;
  const days = fill(words.from_to, { first: dayWords(planting.first), last: dayWords(planting.last) });
  return fill(words.pair, { first: planting.name, second: days });
}

function placeWords(note) {
  const planting = plantingsById.get(note.planting);
  if (planting) {
    return fill(words.place_in, { name: isolated(plantingWords(note.planting, planting)), bed: isolated(bedName(planting.bed)) });
  }
  if (note.planting || note.dressing) return note.dressing ? isolated(dressingName(note.dressing)) : words.gone;
  return note.bed ? isolated(bedName(note.bed)) : words.garden;
}

function dressingName(id) {
  const line = data.lines.find((one) => one.dressing === id);
  return line ? line.work : words.gone;
}

function noteWords(note) {
  const what = measureWords(note);
  const more = (note.words || "").trim();
  return what && more ? fill(words.what_words, { what, words: isolated(more) }) : what || more;
}

function measureWords(note) {
  switch (note.kind) {
    case "note":
    case "lesson":
      return note.words ? "" : labelOf(choices.kinds, note.kind);
    case "done":
      return note.task ? choices.tasks[note.task] || note.task : "";
    case "picked":
      return pickedWords(note);
    case "seen":
      return harmWords(note);
    case "came up":
      if (note.count === undefined) return labelOf(choices.kinds, note.kind);
      if (note.sown === undefined) return fill(words.came_up_count, { count: note.count });
      return fill(words.came_up_of, { count: note.count, sown: note.sown });
    case "ended":
      return fill(words.ended_words, { why: labelOf(choices.whys, note.why) });
    case "measured":
      return fill(words.measured_words, {
        measure: note.measure,
        value: decimal(note.value),
        unit: note.unit || "",
      }).trim();
    default:
      return labelOf(choices.kinds, note.kind);
  }
}

// The unit in which an amount of the file is shown: the largest in which it is at least one.
function shownAmount(amount) {
  const units = choices.units.filter((unit) => unit[2] === amount.unit);
  const [key, label, , factor] = units.find((unit) => amount.value >= unit[3]) || units[units.length - 1];
  return { key, label, number: Number((amount.value / factor).toPrecision(6)) };
}

function pickedWords(note) {
  const { label, number } = shownAmount(note.amount);
  const amount = fill(words.amount_words, { number: decimal(number), unit: label });
  if (!note.picked_for || note.picked_for === "kept") return fill(words.picked_words, { amount });
  return fill(words.picked_went, { amount, where: labelOf(choices.went, note.picked_for) });
}

function harmWords(note) {
  let text = labelOf(choices.harms, note.harm);
  if (note.share !== undefined) {
    text = fill(words.harm_share, { harm: text, share: labelOf(choices.shares, note.share) });
  }
  if (note.lost !== undefined) {
    text = fill(words.harm_lost, { harm: text, share: labelOf(choices.shares, note.lost) });
  }
  return note.cause ? fill(words.perhaps, { harm: text, cause: isolated(note.cause) }) : text;
}
