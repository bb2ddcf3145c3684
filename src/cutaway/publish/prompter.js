"use strict";
// Runs the text past the reading line at the speed at which it is timed. Without this script the page is a long text.
(() => {
  const lines = [...document.querySelectorAll("[data-start]")];
  const end = Number(document.body.dataset.length);
  const clock = document.getElementById("clock");
  const state = document.getElementById("state");
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  let now = 0, rate = 1, running = false, last = null;

  const at = (line) => Number(line.dataset.start);
  const current = () => {
    let found = 0;
    lines.forEach((line, place) => { if (at(line) <= now) found = place; });
    return found;
  };
  // The second that has begun, as a player shows it; hours only where there are any.
  const told = (exactly) => {
    const whole = Math.floor(Math.round(exactly * 1000) / 1000);
    const two = (number) => String(number).padStart(2, "0");
    const hours = Math.floor(whole / 3600), minutes = Math.floor(whole / 60) % 60;
    return hours ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
  };

  const show = () => {
    const place = current();
    lines.forEach((line, other) => line.classList.toggle("now", other === place));
    const line = lines[place];
    const next = lines[place + 1];
    // Who wants nothing to move gets the text sentence by sentence.
    const share = next && !still.matches ? Math.min(1, (now - at(line)) / (at(next) - at(line))) : 0;
    const from = line.offsetTop;
    const to = next ? next.offsetTop : from;
    window.scrollTo(0, from + share * (to - from) - window.innerHeight * 0.3);
    clock.textContent = `${told(now)} of ${told(end)}`;
    state.textContent = `${running ? "running" : "stopped"}, ${Math.round(rate * 100)} %`;
  };
  const tick = (time) => {
    if (running && last !== null) {
      now = Math.min(end, now + rate * (time - last) / 1000);
      if (now >= end) running = false;
      show();
    }
    last = time;
    if (running) requestAnimationFrame(tick); else last = null;
  };
  const toggle = () => {
    running = !running && now < end;
    show();
    if (running) requestAnimationFrame(tick);
  };
  const jump = (by) => {
    now = at(lines[Math.max(0, Math.min(lines.length - 1, current() + by))]);
    show();
  };
  const faster = (by) => { rate = Math.max(0.5, Math.min(2, rate + by)); show(); };

  const keys = {
    " ": toggle,
    ArrowDown: () => jump(1),
    ArrowUp: () => jump(-1),
    ArrowRight: () => faster(0.05),
    ArrowLeft: () => faster(-0.05),
    Home: () => { now = 0; show(); },
    m: () => document.body.classList.toggle("mirrored"),
  };
  addEventListener("keydown", (event) => {
    const act = keys[event.key];
    if (!act || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === " " && event.target instanceof HTMLButtonElement) return;
    event.preventDefault();
    act();
  });
  const buttons = { run: " ", back: "ArrowUp", on: "ArrowDown", slower: "ArrowLeft", faster: "ArrowRight", mirror: "m" };
  for (const [id, key] of Object.entries(buttons)) document.getElementById(id).addEventListener("click", keys[key]);
  document.getElementById("bar").hidden = false;
  if (lines.length) show();
})();
