// The form in which a note is written or changed. What is typed is kept as a draft until it is finished.

const OF_PLANTING = ["picked", "came up", "flowering", "ripe", "first picking", "last picking", "ended"];
const NEEDS_WORDS = ["note", "lesson", "done"];

function placeValue(note) {
  if (note.planting) return "planting/" + note.planting;
  return note.bed ? "bed/" + note.bed : "garden";
}

function emptyForm(kind, place) {
  return {
    id: "", kind, place, day: shownDay, words: "", amount: "", unit: choices.units[0][0], went: "kept",
    harm: choices.harms[0][0], share: "", lost: "", cause: "", count: "", sown: "",
    why: choices.whys[0][0], measure: "", value: "", measureUnit: "",
  };
}

function formOf(note) {
  const form = emptyForm(note.kind, placeValue(note));
  const shown = note.amount ? shownAmount(note.amount) : null;
  const text = (value) => (value === undefined ? "" : String(value));
  return Object.assign(form, {
    id: note.id, day: note.day, words: text(note.words), amount: shown ? String(shown.number) : "",
    unit: shown ? shown.key : form.unit, went: note.picked_for || "kept", harm: note.harm || form.harm,
    share: text(note.share), lost: text(note.lost), cause: text(note.cause), count: text(note.count), sown: text(note.sown),
    why: note.why || form.why, measure: text(note.measure), value: text(note.value), measureUnit: text(note.unit),
  });
}

// The note that a form makes, or the field that is wrong and why.
function noteOf(form) {
  const wrong = (at, why) => ({ wrong: at, why });
  const old = form.id ? entryOf(form.id) : null;
  const task = old && old.note.kind === "done" && form.kind === "done" ? old.note.task : undefined;
  if (old && old.note.dressing) {
    return DAY.test(form.day) ? { note: Object.assign({}, old.note, { day: form.day }) } : wrong("day", words.needs_day);
  }
  const [type, id] = form.place.split("/");
  const note = { id: form.id || newId(), kind: form.kind, day: form.day };
  const planting = type === "planting" ? plantingsById.get(id) : null;
  if (type === "planting") note.planting = id;
  if (type === "bed") note.bed = id;
  const said = cut(form.words.trim(), data.longest);
  if (!DAY.test(form.day)) return wrong("day", words.needs_day);
  if (OF_PLANTING.includes(form.kind) && !note.planting) return wrong("place", words.needs_planting);
  if (NEEDS_WORDS.includes(form.kind) && !said && !task) return wrong("words", words.needs_words);
  if (task) {
    if (!note.planting) return wrong("place", words.needs_planting);
    note.task = task;
    if (old.note.cover) note.cover = old.note.cover;
  }
  const fault = measured(note, form);
  if (fault) return fault;
  if (said) note.words = said;
  if (form.kind === "lesson" && planting) note.crop = planting.crop;
  if (oneLine(state.by)) note.by = oneLine(state.by);
  if (planting) note.was = identity(planting);
  else if (note.planting && old && old.note.was) note.was = old.note.was;
  return { note };
}

// Put what a kind of note tells into it; what is wrong, where something is.
function measured(note, form) {
  const number = (text) => (text.trim() === "" ? NaN : Number(text.trim().replace(",", ".")));
  const count = (text) => (/^\d{1,8}$/.test(text.trim()) ? Number(text.trim()) : null);
  const wrong = (at, why) => ({ wrong: at, why });
  if (form.kind === "picked") {
    const amount = number(form.amount);
    const [, , unit, factor] = choices.units.find((one) => one[0] === form.unit);
    const value = Math.round(amount * factor * 1000) / 1000;
    if (!(value > 0 && value <= 1e9)) return wrong("amount", words.needs_amount);
    note.amount = { value, unit };
    note.picked_for = form.went;
  } else if (form.kind === "seen") {
    note.harm = form.harm;
    if (form.share) note.share = Number(form.share);
    if (form.lost && !note.planting) return wrong("place", words.needs_planting);
    if (form.lost) note.lost = Number(form.lost);
    if (oneLine(form.cause)) note.cause = oneLine(form.cause);
  } else if (form.kind === "came up") {
    for (const name of ["count", "sown"]) {
      if (form[name].trim() === "") continue;
      const found = count(form[name]);
      if (found === null || (name === "sown" && found < 1)) return wrong(name, words.needs_count);
      note[name] = found;
    }
  } else if (form.kind === "ended") {
    note.why = form.why;
  } else if (form.kind === "measured") {
    const value = number(form.value);
    if (!oneLine(form.measure)) return wrong("measure", words.needs_measure);
    if (!(Math.abs(value) <= 1e12)) return wrong("value", words.needs_value);
    note.measure = oneLine(form.measure);
    note.value = value;
    if (oneLine(form.measureUnit)) note.unit = oneLine(form.measureUnit);
  }
  return null;
}

// What a note can be about: beds with what grows in them, what grows there on the day shown first.
function placeOptions(chosen, ofPlanting) {
  const option = (value, label) => element("option", { value, selected: value === chosen }, label);
  const groups = data.beds.map((bed) => {
    const there = plantingsOf.get(bed.id);
    const now = there.filter(([, one]) => one.first <= shownDay && shownDay <= one.last);
    const rest = there.filter((pair) => !now.includes(pair));
    const plantings = [...now, ...rest].map(([id, one]) => option("planting/" + id, plantingWords(id, one)));
    return element("optgroup", { label: bed.name }, ofPlanting ? [] : option("bed/" + bed.id, bed.name), plantings);
  });
  const all = element("select", {}, option("garden", ofPlanting ? "–" : words.garden), groups);
  if (![...all.options].some((one) => one.value === chosen)) {
    all.prepend(option(chosen, ofPlanting && chosen.startsWith("bed/") ? "–" : placeWords(placeNote(chosen))));
  }
  return all;
}

// A note of which only the place is known, from the value of a choice.
function placeNote(value) {
  const [type, id] = value.split("/");
  return type === "planting" ? { planting: id } : type === "bed" ? { bed: id } : {};
}

function writeView(form) {
  const alertLine = element("p", { role: "alert", class: "wrong" });
  const shell = element("form", { novalidate: true, onsubmit: submitted });
  const old = form.id ? entryOf(form.id) : null;
  const spread = Boolean(old && old.note.dressing);
  const ticked = Boolean(old && old.note.task);

  function typed(name, control) {
    control.addEventListener("input", () => {
      form[name] = control.value;
      keep((kept) => {
        kept.draft = { hash: location.hash, form };
      });
    });
    return control;
  }

  function input(name, attributes) {
    return typed(name, element("input", Object.assign({ type: "text", maxlength: 200, autocomplete: "off", value: form[name] }, attributes)));
  }

  function chosen(name, pairs) {
    return typed(name, select(pairs, form[name]));
  }

  function fields() {
    const kind = chosen("kind", choices.kinds);
    kind.addEventListener("change", () => {
      redraw();
      document.getElementById("f-kind").focus();
    });
    const place = typed("place", placeOptions(form.place, OF_PLANTING.includes(form.kind)));
    const text = typed("words", element("textarea", { rows: 3, maxlength: data.longest, dir: "auto" }));
    text.value = form.words;
    const needed = NEEDS_WORDS.includes(form.kind) && !ticked;
    return [
      spread || ticked ? null : field("f-kind", words.kind, kind),
      spread ? null : field("f-place", words.place, place),
      spread ? null : kindFields(),
      spread ? null : field("f-words", needed ? words.words_note : words.words_more, text),
      field("f-day", words.on_day, input("day", { type: "date", maxlength: null })),
    ];
  }

  function kindFields() {
    switch (form.kind) {
      case "picked":
        return [
          element(
            "div",
            { class: "pair" },
            field("f-amount", words.amount, input("amount", { inputmode: "decimal", maxlength: 12 })),
            field("f-unit", words.unit, chosen("unit", choices.units)),
          ),
          field("f-went", words.went, chosen("went", choices.went)),
        ];
      case "seen":
        return [
          field("f-harm", words.harm, chosen("harm", choices.harms)),
          field("f-share", words.share, chosen("share", [["", words.share_unknown], ...choices.shares])),
          field("f-lost", words.lost, chosen("lost", [["", words.share_unknown], ...choices.shares])),
          field("f-cause", words.cause, input("cause")),
        ];
      case "came up":
        return element(
          "div",
          { class: "pair" },
          field("f-count", words.count, input("count", { inputmode: "numeric", maxlength: 8 })),
          field("f-sown", words.sown, input("sown", { inputmode: "numeric", maxlength: 8 })),
        );
      case "ended":
        return field("f-why", words.why, chosen("why", choices.whys));
      case "measured":
        return [
          field("f-measure", words.measure, input("measure")),
          element(
            "div",
            { class: "pair" },
            field("f-value", words.value, input("value", { inputmode: "decimal", maxlength: 20 })),
            field("f-measureUnit", words.unit, input("measureUnit", { maxlength: 50 })),
          ),
        ];
      default:
        return [];
    }
  }

  function redraw() {
    shell.replaceChildren(
      ...fields().flat(Infinity).filter(Boolean),
      alertLine,
      element(
        "div",
        { class: "row" },
        element("button", { type: "submit", class: "main" }, words.keep),
        button(words.cancel, cancelled),
      ),
    );
  }

  function submitted(event) {
    event.preventDefault();
    const found = form.id || hasRoom() ? noteOf(form) : { wrong: "", why: words.too_many };
    if (!found.note) {
      alertLine.textContent = found.why;
      for (const one of shell.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
      const control = document.getElementById("f-" + found.wrong);
      if (control) {
        control.setAttribute("aria-invalid", "true");
        control.focus();
      }
      return;
    }
    putNote(found.note, old ? old.key : "");
    say(fill(words.kept, { what: noteWords(found.note) }));
    leave();
  }

  function cancelled() {
    keep((kept) => {
      kept.draft = null;
    });
    leave();
  }

  redraw();
  const title = form.id ? words.change_note : words.write;
  return [pageHeading(title), shell];
}
