"use strict";
// Shows the reason of what was chosen. Without this script all reasons stand behind each question, closed.
(() => {
  for (const form of document.querySelectorAll("form")) {
    const told = form.querySelector(".told");
    const button = form.querySelector("button");
    button.hidden = false;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const chosen = form.querySelector("input:checked");
      told.replaceChildren();
      if (!chosen) {
        told.append("Choose an answer first.");
        return;
      }
      const option = chosen.closest(".option");
      told.append(option.querySelector("template").content.cloneNode(true));
      if (chosen.value !== form.dataset.answer) {
        const answer = form.querySelector(`input[value="${form.dataset.answer}"]`).closest(".option");
        const words = document.createElement("p");
        words.append("The answer: ", answer.querySelector("label").textContent);
        told.append(words, answer.querySelector("template").content.cloneNode(true));
      }
    });
    // What is told belongs to what was chosen when it was asked for.
    form.addEventListener("change", () => told.replaceChildren());
  }
})();
