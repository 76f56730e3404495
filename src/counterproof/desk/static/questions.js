// The kitchen's questions: a form is fetched, filled in, asked; the answer stands under it.

let desk = null;

function told() {
  const entries = {};
  for (const entry of desk.place("asking").elements) {
    if (!entry.name) continue;
    entries[entry.name] = entry.type === "checkbox" ? (entry.checked ? "yes" : "") : entry.value;
  }
  return entries;
}

function faults(found) {
  for (const slip of desk.place("asking").querySelectorAll(".wrong")) slip.textContent = "";
  for (const [key, words] of Object.entries(found || {})) {
    const slip = desk.place(`fault-${key}`);
    if (!slip) continue;
    slip.textContent = words;
    slip.closest("details")?.setAttribute("open", "");
  }
  const first = Object.keys(found || {})[0];
  if (first) desk.place(`entry-${first}`)?.focus();
}

async function work(event) {
  event?.preventDefault();
  const form = desk.place("asking");
  desk.state("working it out …");
  try {
    const asked = { name: desk.view.name, process: form.dataset.process, told: told() };
    const { html, said } = await (await desk.ask("/answer", asked)).json();
    faults();
    desk.place("answer").innerHTML = html;
    desk.said(said);
  } catch (fault) {
    if (fault.told?.faults) faults(fault.told.faults);
    else if (fault.status === 422) {
      desk.place("answer").replaceChildren(Object.assign(document.createElement("p"), {
        className: "wrong", textContent: `${fault.told.message} ${fault.told.remedy}`,
      }));
    } else desk.failed(fault);
  } finally {
    desk.state("");
  }
}

async function laid(process, step) {
  const asked = new URLSearchParams({ name: desk.view.name, process, ...(step ? { step } : {}) });
  try {
    const { html } = await (await desk.ask(`/question?${asked}`)).json();
    desk.place("question").innerHTML = html;
    desk.place("answer").replaceChildren();
    desk.place("asking").addEventListener("submit", work);
    for (const button of document.querySelectorAll("[data-ask]")) {
      const here = button.dataset.ask === process && (button.dataset.step || "") === (step || "");
      if (here) button.setAttribute("aria-current", "true");
      else button.removeAttribute("aria-current");
    }
    history.replaceState(null, "", `/questions?${asked}`);
    if (step) await work();
  } catch (fault) {
    desk.failed(fault);
  }
}

export async function laidOut(_, shared) {
  desk = shared;
  const asked = new URLSearchParams(location.search);
  for (const button of document.querySelectorAll("[data-ask]")) {
    button.addEventListener("click", () => laid(button.dataset.ask, button.dataset.step));
  }
  const raised = asked.get("step") && document.querySelector(`[data-step="${CSS.escape(asked.get("step"))}"]`);
  const first = document.querySelector("[data-ask]");
  await laid(asked.get("process") || (raised || first).dataset.ask, raised ? asked.get("step") : null);
}
