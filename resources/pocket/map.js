// The plan of the garden. Beds have their names where these fit, else their numbers in the list below it.

// Height of letters on the plan, and how far from a bed a finger still means it. [pixels]
const LETTERS = 16;
const FINGER = 24;
// How much larger and smaller a step makes it; the largest scale. [pixels a metre]
const ZOOM_STEP = 1.6;
const MOST_SCALE = 120;
let zoom = 1;

const measure = document.createElement("canvas").getContext("2d");

function textWidth(text) {
  measure.font = `600 ${LETTERS}px system-ui, sans-serif`;
  return measure.measureText(text).width;
}

function gardenMap(day, room) {
  const map = data.map;
  const dark = window.matchMedia("(prefers-color-scheme: dark)").matches;
  const fit = Math.min(room / map.width, (1.2 * room) / map.height);
  const scale = Math.min(Math.max(fit * zoom, fit), Math.max(MOST_SCALE, fit));
  const [width, height] = [map.width * scale, map.height * scale];
  const growing = [...plantingsById.values()].filter((one) => one.path && one.first <= day && day <= one.last);
  const ground = drawn(
    "g",
    { transform: `scale(${scale})` },
    map.outline && drawn("path", { d: map.outline, class: "outline" }),
    map.structures.map((one) => drawn("path", { d: one.path, class: "structure " + one.kind })),
    data.beds.map((bed) => drawn("path", { d: bed.path, class: "bed" })),
    growing.map((one) => drawn("path", { d: one.path, class: "plot", fill: dark ? one.dark : one.light })),
    data.beds.map((bed) => drawn("path", { d: bed.path, class: "edge" })),
  );
  const svg = drawn(
    "svg",
    {
      width,
      height,
      role: "img",
      "aria-label": fill(words.plan, { day: dayWords(day) }),
      onclick: (event) => openNearest(event, svg, scale),
    },
    ground,
    bedLabels(scale, width),
    northArrow(width),
  );
  return svg;
}

function openNearest(event, svg, scale) {
  const frame = svg.getBoundingClientRect();
  const [x, y] = [event.clientX - frame.left, event.clientY - frame.top];
  let nearest = null;
  let least = FINGER;
  for (const bed of data.beds) {
    const [left, top, wide, tall] = bed.box.map((value) => value * scale);
    const away = Math.hypot(
      Math.max(left - x, 0, x - left - wide),
      Math.max(top - y, 0, y - top - tall),
    );
    const middle = Math.hypot(x - left - wide / 2, y - top - tall / 2);
    const rank = away + middle / 1e6;
    if (rank < least) [nearest, least] = [bed, rank];
  }
  if (nearest) location.hash = bedHash(nearest.id);
}

function bedLabels(scale, width) {
  const taken = [];
  return data.beds.map((bed, index) => {
    const [, , wide, tall] = bed.box.map((value) => value * scale);
    const [x, y] = bed.at.map((value) => value * scale);
    const name = textWidth(bed.name) + 6;
    const high = LETTERS + 2;
    const number = String(index + 1);
    const tries = [
      [bed.name, name, high, wide >= name && tall >= high, 0],
      [bed.name, high, name, tall >= name && wide >= high, -90],
      [number, textWidth(number) + 2, high, true, 0],
    ];
    for (const [text, across, up, fits, turn] of tries) {
      const box = [Math.max(x - across / 2, 0), y - up / 2, across, up];
      box[0] = Math.min(box[0], width - across);
      if (!fits || taken.some((other) => meet(box, other))) continue;
      taken.push(box);
      const middle = box[0] + across / 2;
      const attributes = { x: middle, y, class: "name", dir: "auto" };
      if (turn) attributes.transform = `rotate(${turn} ${middle} ${y})`;
      return drawn("text", attributes, text);
    }
    return null;
  });
}

function meet(one, other) {
  return (
    one[0] < other[0] + other[2] &&
    other[0] < one[0] + one[2] &&
    one[1] < other[1] + other[3] &&
    other[1] < one[1] + one[3]
  );
}

function northArrow(width) {
  const turn = data.map.north;
  return drawn(
    "g",
    { transform: `translate(${width - 18} 22)`, class: "north" },
    drawn("path", { d: "M0 -16L6 12L0 7L-6 12Z", transform: `rotate(${turn})` }),
  );
}

// The plan in a frame that scrolls where it is larger than the screen.
function mapFrame(day, rendered) {
  const frame = element("div", {
    class: "plan",
    tabindex: "0",
    role: "region",
    "aria-label": fill(words.plan, { day: dayWords(day) }),
  });
  const place = () => {
    const around = document.querySelector("main");
    const style = getComputedStyle(around);
    const room = around.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - 4; // its border
    frame.replaceChildren(gardenMap(day, Math.max(room, 100)));
  };
  const zoomed = (factor) => {
    const [wide, tall] = [frame.scrollWidth, frame.scrollHeight];
    const middle = [frame.scrollLeft + frame.clientWidth / 2, frame.scrollTop + frame.clientHeight / 2];
    zoom = Math.min(Math.max(zoom * factor, 1), 16);
    place();
    frame.scrollLeft = (middle[0] / wide) * frame.scrollWidth - frame.clientWidth / 2;
    frame.scrollTop = (middle[1] / tall) * frame.scrollHeight - frame.clientHeight / 2;
  };
  place();
  rendered(place);
  return element(
    "div",
    {},
    frame,
    element(
      "div",
      { class: "row" },
      button(words.larger, () => zoomed(ZOOM_STEP), { "data-focus": "larger" }),
      button(words.smaller, () => zoomed(1 / ZOOM_STEP), { "data-focus": "smaller" }),
    ),
  );
}
