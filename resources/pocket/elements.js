// Elements are made one by one, and every text is set as text: no name is ever read as HTML.

const SVG = "http://www.w3.org/2000/svg";

function element(tag, attributes, ...children) {
  return filled(document.createElement(tag), attributes, children);
}

function drawn(tag, attributes, ...children) {
  return filled(document.createElementNS(SVG, tag), attributes, children);
}

function filled(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes || {})) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value === true) node.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) node.setAttribute(name, value);
  }
  for (const child of children.flat(Infinity)) {
    if (child === null || child === undefined || child === false || child === "") continue;
    node.append(child);
  }
  return node;
}

function button(label, action, attributes) {
  return element("button", Object.assign({ type: "button", onclick: action }, attributes), label);
}

function link(hash, label, attributes) {
  return element("a", Object.assign({ href: hash }, attributes), label);
}

function heading(level, text, attributes) {
  return element("h" + level, Object.assign({ dir: "auto" }, attributes), text);
}

// A field with its label above it.
function field(id, label, control, help) {
  control.id = id;
  const about = help ? element("p", { class: "help", id: id + "-help" }, help) : null;
  if (about) control.setAttribute("aria-describedby", about.id);
  return element("div", { class: "field" }, element("label", { for: id }, label), control, about);
}

function select(pairs, chosen, attributes) {
  return element(
    "select",
    attributes,
    pairs.map(([value, label]) => element("option", { value, selected: String(value) === String(chosen) }, label)),
  );
}
