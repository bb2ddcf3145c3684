"use strict";
// Moves from stop to stop of the data. What a stop shows was worked out beforehand; nothing is calculated here.
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const svg = document.querySelector(".drawn svg");
  const byId = (id) => document.getElementById(id);
  const buttons = [...document.querySelectorAll("button[data-move]")];
  const slides = [...document.querySelectorAll("input[data-moves]")].map((node) => ({
    node, control: Number(node.dataset.control), moves: node.dataset.moves.split(" ").map(Number),
  }));
  const parts = [...document.querySelectorAll("#parts > details")];
  const first = [];
  for (let i = 0; i < data.stops[0].l.length; i += 2) first[data.stops[0].l[i]] = data.stops[0].l[i + 1];
  const shown = first.slice();
  let walk = [];  // movements so far
  let stops = [0];  // the stop before each of them, and the last

  const text = (number) => data.texts[number];
  const list = (number) => data.lists[number].map(text);

  // Where the looks go: found anew each time, since a look may hold no place of its own but its neighbours do.
  const places = data.places.map((looks, number) => {
    const found = svg.querySelector(".p" + number);
    const title = found.classList.contains("{TITLE}") && !found.classList.contains("{PLACE}");
    return { node: title ? found.querySelector(":scope > title") : found, title };
  });

  const put = (number, look) => {
    if (shown[number] === look) return;
    shown[number] = look;
    const place = places[number];
    const words = text(data.places[number][look]);
    if (place.title) place.node.textContent = words;
    else place.node.innerHTML = words;
  };

  const draw = (stop) => {
    const wanted = first.slice();
    for (let i = 0; i < stop.l.length; i += 2) wanted[stop.l[i]] = stop.l[i + 1];
    wanted.forEach((look, number) => put(number, look));
    byId("words").replaceChildren(...stop.w.map((one) => item(data.words[one].map(text).join("; "))));
  };

  const item = (words) => {
    const made = document.createElement("li");
    made.textContent = words;
    return made;
  };

  const line = (words) => {
    const made = document.createElement("p");
    made.textContent = words;
    return made;
  };

  const telling = (stop, before) => {
    parts.forEach((node, number) => {
      const [words, reasons] = stop.p[number];
      node.querySelector(".words").textContent = text(words);
      node.classList.toggle("new", before !== null && before.p[number][0] !== words);
      const lines = list(reasons);
      const behind = lines.length ? document.createElement("ul") : line("Nothing more can be said of it.");
      if (lines.length) behind.append(...lines.map(item));
      node.lastElementChild.replaceWith(behind);
    });
  };

  const hands = (stop) => {
    stop.c.forEach((words, number) => { byId("now-" + number).textContent = text(words); });
    for (const button of buttons) {
      const number = Number(button.dataset.move);
      const arc = stop.a[number];
      if (button.hasAttribute("aria-pressed")) button.setAttribute("aria-pressed", String(arc === null));
      const shut = arc !== null && arc[0] < 0;
      if (shut || (arc === null && !button.hasAttribute("aria-pressed"))) button.setAttribute("aria-disabled", "true");
      else button.removeAttribute("aria-disabled");
      button.title = shut ? text(arc[1]) : "";
    }
    for (const slide of slides) standing(slide, stop);
  };

  // A slide stands where its control stands; a rule may have put that between two of its places.
  const standing = (slide, stop) => {
    const place = stop.n[slide.control];
    const between = stop.a[slide.moves[place]] !== null;
    slide.node.value = place;
    slide.node.setAttribute("aria-valuetext", text(stop.c[slide.control]) + (between ? ", between two places" : ""));
    byId("now-" + slide.control).textContent = text(stop.c[slide.control]);
  };

  // While it is slid nothing is moved yet: where it would be put is told, and whether anything is known of that.
  const sliding = (slide) => {
    const stop = data.stops[stops[stops.length - 1]];
    const number = slide.moves[Number(slide.node.value)];
    const arc = stop.a[number];
    const words = data.moves[number][1] + (arc !== null && arc[0] < 0 ? ", not to be had from here" : "");
    slide.node.setAttribute("aria-valuetext", words);
    byId("now-" + slide.control).textContent =
      text(stop.c[slide.control]) + (arc === null ? "" : ", to be let go at " + words);
  };

  const slid = (slide) => {
    const stop = data.stops[stops[stops.length - 1]];
    const place = Number(slide.node.value);
    const number = slide.moves[place];
    if (stop.a[number] !== null) move(number);
    // Where it was not done it stands where it stood.
    standing(slide, data.stops[stops[stops.length - 1]]);
  };

  const came = (lines) => {
    byId("came").replaceChildren(...lines.map(line));
    byId("came").parentElement.scrollTop = 0;
  };

  const step = (number) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = number === 0 ? "the beginning" : data.moves[walk[number - 1]][3];
    if (number === stops.length - 1) button.setAttribute("aria-current", "step");
    button.addEventListener("click", () => goBack(number));
    const made = document.createElement("li");
    made.append(button);
    return made;
  };

  const show = (before) => {
    const stop = data.stops[stops[stops.length - 1]];
    draw(stop);
    telling(stop, before);
    hands(stop);
    byId("walk").replaceChildren(...stops.map((_, number) => step(number)));
    byId("back").disabled = walk.length === 0;
    byId("again").disabled = walk.length === 0;
    document.body.dataset.stop = stops[stops.length - 1];
    try { history.replaceState(null, "", walk.length ? "#walk=" + walk.join(".") : "#"); } catch { /* not allowed here */ }
  };

  const names = parts.map((node) => node.querySelector(".name").textContent);

  const move = (number) => {
    const before = data.stops[stops[stops.length - 1]];
    const arc = before.a[number];
    const told = data.moves[number][3];
    if (arc === null) {
      came([told + ":", "it stands there already."]);
      return;
    }
    if (arc[0] < 0) {
      came([told + ": not done.", text(arc[1])]);
      return;
    }
    const after = data.stops[arc[0]];
    walk.push(number);
    stops.push(arc[0]);
    show(before);
    const changes = names.flatMap((name, i) => before.p[i][0] === after.p[i][0] ? []
      : [name + ": " + text(after.p[i][0]) + " (before: " + text(before.p[i][0]) + ")."]);
    const happened = list(arc[1]);
    const nothing = happened.length || changes.length ? [] : ["Nothing that is told of here changes."];
    came([told + ".", ...happened, ...changes, ...nothing]);
  };

  const goBack = (length) => {
    walk = walk.slice(0, length);
    stops = stops.slice(0, length + 1);
    show(null);
    came([length ? "Back to after: " + data.moves[walk[length - 1]][3] + "." : "Back at the beginning."]);
    byId("came").scrollIntoView({ block: "nearest" });
  };

  const follow = () => {
    const asked = /^#walk=([\d.]+)$/.exec(location.hash);
    for (const number of asked ? asked[1].split(".").map(Number) : []) {
      const arc = data.stops[stops[stops.length - 1]].a[number];
      if (!arc || arc[0] < 0) break;
      walk.push(number);
      stops.push(arc[0]);
    }
  };

  for (const button of buttons) button.addEventListener("click", () => move(Number(button.dataset.move)));
  for (const slide of slides) {
    slide.node.addEventListener("input", () => sliding(slide));
    slide.node.addEventListener("change", () => slid(slide));
  }
  byId("back").addEventListener("click", () => { if (walk.length) goBack(walk.length - 1); });
  byId("again").addEventListener("click", () => goBack(0));
  follow();
  show(null);
})();
