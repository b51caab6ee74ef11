// Pictures of what sensors read, to be looked at closer. The server draws the
// first picture and gives stretches of any part; this moves what it has at
// once and asks for what is missing. Without it the links beneath do the same.

const SVG = "http://www.w3.org/2000/svg";
const WIDE = 1000; // width of a plot in its own units, as internal/draw has it
const HIGH = 230;
const HEAD = 8;
const AROUND = 3; // how many times the width that is seen is fetched
const FETCHED = 2400; // stretches of one answer
const FINER = 1.6; // how much closer one may come before finer stretches are asked for
const LEAST_MS = 1000; // nothing is looked at closer than this
const EASE = 0.3; // of the way to the goal, in each frame
const REST_MS = 250; // after which a part is said, and stands in the address

const STEPS = [1, 10, 100, 1e3, 5e3, 15e3, 6e4, 3e5, 9e5, 36e5, 108e5, 216e5, 432e5, 864e5, 1728e5, 6048e5, 12096e5, 2592e6, 7776e6, 31536e6];

/** @typedef {{from: number, to: number}} Part */
/** @typedef {{from: number, to: number, every: number, at: number[], least: number[], most: number[], count: number[], span?: number, low: number, high: number, g: SVGGElement}} Layer */

/** Takes up every picture that is not taken up yet. @param {ParentNode} root */
export function enliven(root) {
  for (const trace of root.querySelectorAll("[data-series]:not([data-live])")) look(trace);
}

/** @param {SVGGElement} trace */
function look(trace) {
  trace.dataset.live = "1";
  const told = trace.dataset;
  const svg = /** @type {SVGSVGElement} */ (trace.closest("svg.awn"));
  const down = svg.querySelector(".down");
  const across = svg.querySelector(".across");
  const figure = svg.closest("figure");
  const first = +told.first;
  const last = +told.last + 1;
  const reader = (x) => +told.shift + +told.scale * x;
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  /** @type {Part} */
  let view = { from: +told.from, to: +told.to };
  let goal = view;
  /** @type {Layer | null} */
  let whole = null;
  /** @type {Layer | null} */
  let near = null;
  let frame = 0;
  let rest = 0;
  let asked = null;

  svg.tabIndex = 0;
  svg.setAttribute("role", "application");
  svg.querySelector("desc").textContent += " " + told.keys;

  /** Holds a part to what was read and a little around it. @param {Part} p */
  function held(p) {
    const all = last - first;
    const span = Math.min(Math.max(p.to - p.from, LEAST_MS), Math.max(1.1 * all, LEAST_MS));
    const mid = Math.min(Math.max((p.from + p.to) / 2, first), last);
    return { from: mid - span / 2, to: mid + span / 2 };
  }

  /** Goes to a part, at once if it is being dragged. */
  function go(part, atOnce) {
    goal = held(part);
    if (atOnce || still.matches) view = goal;
    wake();
  }

  function wake() {
    if (!frame) frame = requestAnimationFrame(step);
  }

  function step() {
    frame = 0;
    const close = (goal.to - goal.from) * 1e-3;
    if (Math.abs(goal.from - view.from) < close && Math.abs(goal.to - view.to) < close) view = goal;
    else view = { from: view.from + EASE * (goal.from - view.from), to: view.to + EASE * (goal.to - view.to) };
    paint();
    if (view !== goal) wake();
    need();
    clearTimeout(rest);
    rest = setTimeout(settled, REST_MS);
  }

  /** The layer that shows the part best. */
  function best() {
    return near && near.from <= Math.max(view.from, first) && near.to >= Math.min(view.to, last) ? near : whole ?? near;
  }

  function paint() {
    const layer = best();
    if (!layer) return;
    for (const other of [whole, near]) if (other) other.g.setAttribute("display", other === layer ? "inline" : "none");
    const [low, high, grid] = heights(layer);
    const span = view.to - view.from;
    const sx = (layer.to - layer.from) / span;
    const tx = ((layer.from - view.from) / span) * WIDE;
    const up = HIGH / (high - low);
    const sy = ((layer.high - layer.low) / 100) * up;
    layer.g.setAttribute("transform", `matrix(${sx} 0 0 ${-sy} ${tx} ${HIGH - (layer.low - low) * up})`);
    down.replaceChildren(
      ...grid.flatMap((v) => {
        const y = HEAD + HIGH - (v - low) * up;
        return [level(y), words(0, y + 4, -6, "tick end", number(v, grid))];
      }),
    );
    across.replaceChildren(
      ...times().flatMap(([at, word]) => {
        const share = (at - view.from) / span;
        return [upright(share), words(share, HEAD + HIGH + 18, 0, anchor(share), word)];
      }),
    );
  }

  /** The round range of what is seen, and the values written beside it. */
  function heights(layer) {
    let low = Infinity;
    let high = -Infinity;
    for (let i = after(layer.at, view.from - layer.every); i < layer.at.length && layer.at[i] < view.to; i++) {
      low = Math.min(low, layer.least[i]);
      high = Math.max(high, layer.most[i]);
    }
    if (low > high) [low, high] = [layer.low, layer.high];
    if (high - low < 1e-9 * Math.max(1, Math.abs(high))) [low, high] = [low - 0.5, high + 0.5];
    const by = round((high - low) / 5);
    low = Math.floor(low / by + 1e-9) * by;
    high = Math.ceil(high / by - 1e-9) * by;
    const grid = [];
    for (let k = Math.round(low / by); k * by <= high + 1e-9 * by; k++) grid.push(k * by);
    return [low, high, grid];
  }

  /** Round moments by the clock of the house, with their words. */
  function times() {
    const most = Math.min(8, Math.max(2, Math.floor(svg.clientWidth / 90)));
    const by = STEPS.find((s) => s * most >= view.to - view.from) ?? STEPS.at(-1);
    const ahead = offset((view.from + view.to) / 2);
    const out = [];
    for (let at = Math.ceil((view.from + ahead) / by) * by - ahead; at <= view.to; at += by) out.push([at, moment(at, by)]);
    return out;
  }

  function moment(at, by) {
    const clock = formats.clock.format(at);
    if (by >= 864e5 || (clock === "00:00" && by >= 6e4)) return formats.day.format(at);
    if (by < 1e3) return formats.fine.format(at);
    return by < 6e4 ? formats.second.format(at) : clock;
  }

  const zone = told.zone === "Local" ? {} : { timeZone: told.zone };
  const spoken = document.documentElement.lang;
  const format = (o) => new Intl.DateTimeFormat(spoken === "en" ? "en-GB" : spoken, { ...zone, ...o });
  const formats = {
    clock: format({ hour: "2-digit", minute: "2-digit", hourCycle: "h23" }),
    second: format({ hour: "2-digit", minute: "2-digit", second: "2-digit", hourCycle: "h23" }),
    fine: format({ second: "2-digit", fractionalSecondDigits: 3 }),
    day: format({ day: "numeric", month: "short" }),
    whole: format({ weekday: "short", day: "numeric", month: "short", year: "numeric", hour: "2-digit", minute: "2-digit", hourCycle: "h23" }),
    parts: format({ year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", second: "numeric", hourCycle: "h23" }),
  };

  const full = (at) => formats.whole.format(at).replace(/^(\S+), /, "$1 ");

  /** By how many ms the clock of the house is ahead of UTC. */
  function offset(at) {
    const p = Object.fromEntries(formats.parts.formatToParts(at).map((x) => [x.type, +x.value]));
    return Date.UTC(p.year, p.month - 1, p.day, p.hour, p.minute, p.second) - Math.floor(at / 1e3) * 1e3;
  }

  const plain = (x, decimals) => x.toFixed(decimals).replace("-", "−");
  const number = (v, grid) => plain(v, grid.length > 1 ? Math.max(0, -Math.floor(Math.log10(grid[1] - grid[0]) + 1e-9)) : 0);

  /** Asks for what is missing around the part. */
  function need() {
    const span = goal.to - goal.from;
    if (asked || (near && covers(near, span) && near.span <= FINER * span)) return;
    const around = { from: Math.floor(goal.from - ((AROUND - 1) / 2) * span), to: Math.ceil(goal.to + ((AROUND - 1) / 2) * span) };
    asked = fetched(around)
      .then((layer) => {
        near?.g.remove();
        near = layer;
        near.span = span;
        wake();
      })
      .catch(() => figure.classList.add("stale"))
      .finally(() => (asked = null));
  }

  /** Whether a layer goes far enough beyond the part. */
  function covers(layer, span) {
    return layer.from <= Math.max(goal.from - span / 2, first) && layer.to >= Math.min(goal.to + span / 2, last);
  }

  /** @param {Part} part @returns {Promise<Layer>} */
  async function fetched(part) {
    const answer = await fetch(`${told.series}?from=${part.from}&to=${part.to}&width=${FETCHED}`);
    if (!answer.ok) throw new Error(answer.statusText);
    const { result } = await answer.json();
    figure.classList.remove("stale");
    const s = result.stretches;
    const least = s.least.map(reader);
    const most = s.most.map(reader);
    let low = least.reduce((a, b) => Math.min(a, b), Infinity);
    let high = most.reduce((a, b) => Math.max(a, b), -Infinity);
    if (!(high > low)) [low, high] = [(low || 0) - 0.5, (low || 0) + 0.5];
    const g = document.createElementNS(SVG, "g");
    const layer = { from: part.from, to: part.to, every: result.every_ms, at: s.at_ms, least, most, count: s.readings, low, high, g };
    for (const [name, d] of Object.entries(paths(layer, s.mean.map(reader), result.gap_ms))) {
      const path = document.createElementNS(SVG, "path");
      path.setAttribute("class", name);
      path.setAttribute("d", d);
      g.append(path);
    }
    if (trace.dataset.live === "1") {
      trace.dataset.live = "2";
      trace.replaceChildren(); // the picture that came with the page
    }
    g.setAttribute("display", "none");
    trace.append(g);
    return layer;
  }

  /** Says what is seen, and puts it into the address. */
  function settled() {
    if (view !== goal) return;
    const layer = best();
    if (!layer) return;
    let [low, high, count] = [Infinity, -Infinity, 0];
    for (let i = after(layer.at, view.from - layer.every); i < layer.at.length && layer.at[i] < view.to; i++) {
      [low, high, count] = [Math.min(low, layer.least[i]), Math.max(high, layer.most[i]), count + layer.count[i]];
    }
    if (told.own) {
      const address = new URL(location.href);
      address.searchParams.set("from", Math.round(view.from));
      address.searchParams.set("to", Math.round(view.to));
      history.replaceState(null, "", address);
    }
    const written = (x) => `${plain(x, +told.decimals)} ${told.unit}`;
    const says = (count ? told.read : told.nothing)
      .replace("{from}", full(view.from)).replace("{to}", full(view.to))
      .replace("{least}", written(low)).replace("{most}", written(high))
      .replace("{count}", plain(count, 0).replace(/\B(?=(\d{3})+$)/g, count > 9999 ? "\u202f" : ""));
    const line = figure.querySelector(".says");
    if (line.textContent === says) return;
    line.textContent = says;
    const said = document.getElementById("said");
    if (said && figure.contains(document.activeElement)) said.textContent = says;
  }

  const along = (share) => go({ from: goal.from + share * (goal.to - goal.from), to: goal.to + share * (goal.to - goal.from) }, false);

  /** Comes closer (by less than one) or goes back, about a share of the width. */
  function zoom(by, about, atOnce) {
    const span = goal.to - goal.from;
    const mid = goal.from + about * span;
    go({ from: mid - about * span * by, to: mid + (1 - about) * span * by }, atOnce);
  }

  const acts = {
    earlier: () => along(-0.5), later: () => along(0.5), closer: () => zoom(0.5, 0.5), wider: () => zoom(2, 0.5),
    whole: () => go({ from: first, to: last }, false),
  };

  svg.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const act = { ArrowLeft: () => along(-0.1), ArrowRight: () => along(0.1), PageUp: acts.earlier, PageDown: acts.later, "+": acts.closer, "=": acts.closer, "-": acts.wider, "−": acts.wider, Home: acts.whole }[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  });
  for (const link of figure.closest("section")?.querySelectorAll("[data-go]") ?? []) {
    link.addEventListener("click", (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      acts[link.dataset.go]();
    });
  }

  const fingers = new Map(); // fingers by their id, each where it was last
  const share = (event) => {
    const box = trace.ownerSVGElement.getBoundingClientRect();
    return (event.clientX - box.left) / box.width;
  };
  svg.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    svg.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, share(event));
  });
  svg.addEventListener("pointermove", (event) => {
    if (!fingers.has(event.pointerId)) return;
    const now = share(event);
    const was = fingers.get(event.pointerId);
    const others = [...fingers].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
    fingers.set(event.pointerId, now);
    if (others.length === 0) {
      const by = (was - now) * (goal.to - goal.from);
      go({ from: goal.from + by, to: goal.to + by }, true);
    } else if (Math.abs(now - others[0]) > 0.02) {
      zoom(Math.abs(was - others[0]) / Math.abs(now - others[0]), others[0], true);
    }
  });
  for (const end of ["pointerup", "pointercancel"]) svg.addEventListener(end, (event) => fingers.delete(event.pointerId));
  svg.addEventListener(
    "wheel",
    (event) => {
      if (event.ctrlKey || event.metaKey) zoom(Math.exp(event.deltaY / 300), share(event), true);
      else if (Math.abs(event.deltaX) > Math.abs(event.deltaY)) along(event.deltaX / 1000);
      else return;
      event.preventDefault();
    },
    { passive: false },
  );
  svg.addEventListener("dblclick", (event) => zoom(0.5, share(event), false));

  fetched({ from: first, to: last })
    .then((layer) => {
      whole = layer;
      wake();
    })
    .catch(() => figure.classList.add("stale"));
}

/** Band and line of a layer: WIDE across, 100 high, counted from below. */
function paths(layer, mean, gap) {
  const across = WIDE / (layer.to - layer.from);
  const up = 100 / (layer.high - layer.low);
  const x = (i) => ((layer.at[i] + layer.every / 2 - layer.from) * across).toFixed(3);
  const y = (v) => ((v - layer.low) * up).toFixed(2);
  let band = "";
  let line = "";
  for (let i = 0; i < mean.length; ) {
    const begin = i;
    for (i++; i < mean.length && layer.at[i] - layer.at[i - 1] <= gap; ) i++;
    let top = "";
    let foot = "";
    for (let k = begin; k < i; k++) {
      top += `${k === begin ? "M" : "L"}${x(k)} ${y(layer.most[k])}`;
      line += `${k === begin ? "M" : "L"}${x(k)} ${y(mean[k])}`;
    }
    for (let k = i - 1; k >= begin; k--) foot += `L${x(k)} ${y(layer.least[k])}`;
    if (i - begin > 1) band += `${top}${foot}Z`;
    else line += "h.5"; // one reading alone is a short stroke
  }
  return { band, "line fine": line };
}

/** The first index of a sorted list that is not below x. */
function after(list, x) {
  let [a, z] = [0, list.length];
  while (a < z) {
    const m = (a + z) >> 1;
    if (list[m] < x) a = m + 1;
    else z = m;
  }
  return a;
}

/** The least of 1, 2, 5 times a power of ten that is not below x. */
function round(x) {
  const unit = 10 ** Math.floor(Math.log10(x));
  return [1, 2, 5, 10].map((m) => m * unit).find((s) => s >= x * (1 - 1e-9));
}

const percent = (share) => `${(100 * share).toFixed(3)}%`;
const anchor = (share) => (share < 0.03 ? "tick" : share > 0.72 ? "tick end" : "tick mid");

function drawn(name, attributes) {
  const one = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) one.setAttribute(key, value);
  return one;
}

const level = (y) => drawn("line", { x1: "0%", y1: y, x2: "100%", y2: y, class: "hair" });
const upright = (share) => drawn("line", { x1: percent(share), y1: HEAD, x2: percent(share), y2: HEAD + HIGH, class: "hair" });

function words(share, y, dx, name, text) {
  const one = drawn("text", { x: percent(share), y, dx, class: name });
  one.textContent = text;
  return one;
}
