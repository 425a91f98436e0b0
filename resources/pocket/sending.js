// Notes leave the page as a small file: saved, shared, or copied as text. Nothing is sent by the page itself.

function notesFile() {
  const left = state.notes.filter((entry) => !atHome.has(entry.note.id)).map((entry) => entry.note);
  const content = { format: data.format, version: data.version, garden: data.garden, notes: left };
  return JSON.stringify(content, null, 1) + "\n";
}

function fileName() {
  const name = cut(data.garden.name.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, ""), 40);
  return `notes-${name ? name + "-" : ""}${today()}.json`;
}

function markSaved() {
  const day = today();
  keep((kept) => {
    for (const entry of kept.notes) entry.saved = day;
  });
}

function saveFile() {
  const address = URL.createObjectURL(new Blob([notesFile()], { type: "application/json" }));
  const anchor = element("a", { href: address, download: fileName() });
  document.body.append(anchor);
  anchor.click();
  anchor.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
  markSaved();
  say(fill(words.saved, { file: fileName() }));
  render();
}

function sharedFile() {
  return new File([notesFile()], fileName(), { type: "application/json" });
}

function canShare() {
  try {
    return Boolean(navigator.canShare && navigator.canShare({ files: [sharedFile()] }));
  } catch (error) {
    return false;
  }
}

function shareFile() {
  navigator.share({ files: [sharedFile()], title: fileName() }).then(
    () => {
      markSaved();
      say(fill(words.shared, { file: fileName() }));
      render();
    },
    (error) => {
      if (error.name !== "AbortError") say(words.not_shared);
    },
  );
}

// Copied by the browser's clipboard, or as what is marked where that is refused.
function copyText(area) {
  const done = (copied) => {
    if (copied) markSaved();
    say(copied ? words.copied : words.not_copied);
  };
  const byMarking = () => {
    area.select();
    done(Boolean(document.execCommand && document.execCommand("copy")));
  };
  if (navigator.clipboard) navigator.clipboard.writeText(area.value).then(() => done(true), byMarking);
  else byMarking();
}

function sendButtons() {
  const shown = element("div", {});
  const showText = () => {
    const area = element("textarea", { rows: 6, readonly: true, id: "text", spellcheck: "false" });
    area.value = notesFile();
    shown.replaceChildren(
      element("label", { for: "text" }, words.text_label),
      area,
      element("div", { class: "row" }, button(words.copy, () => copyText(area))),
    );
    area.focus();
  };
  return [
    element(
      "div",
      { class: "row" },
      button(words.save, saveFile, { class: "main", "data-focus": "save" }),
      canShare() ? button(words.share_file, shareFile, { "data-focus": "share" }) : null,
      button(words.show_text, showText, { "data-focus": "text" }),
    ),
    shown,
  ];
}
