// The kitchen: its entries are saved into the kitchen's own file, or the file itself is.

let desk = null;
let over = "";

async function sent(told, wrong) {
  try {
    const answer = await desk.ask("/kitchen-saved", { name: desk.view.name, over, ...told });
    over = (await answer.json()).over;
    desk.said("The kitchen is saved.");
    location.reload();
  } catch (fault) {
    if (fault.told?.faults) {
      for (const [key, words] of Object.entries(fault.told.faults)) {
        const slip = desk.place(`fault-${key}`);
        if (slip) slip.textContent = words;
      }
      desk.place(`entry-${Object.keys(fault.told.faults)[0]}`)?.focus();
    } else if (fault.status === 422 && wrong) wrong.textContent = `${fault.told.message} ${fault.told.remedy}`;
    else if (fault.status === 409) {
      desk.notice("conflict", `${fault.told.message}`, [["Load it anew", () => location.reload()]]);
    } else desk.failed(fault);
  }
}

function saved(event) {
  event.preventDefault();
  for (const slip of document.querySelectorAll("#kitchen .wrong")) slip.textContent = "";
  const entries = {};
  for (const entry of event.target.elements) if (entry.name) entries[entry.name] = entry.value;
  sent({ entries });
}

export async function laidOut(told, shared) {
  desk = shared;
  over = told.over;
  desk.place("file").value = told.text;
  desk.place("kitchen").addEventListener("submit", saved);
  desk.place("save-file")?.addEventListener("click", () => {
    desk.place("file-wrong").textContent = "";
    sent({ text: desk.place("file").value }, desk.place("file-wrong"));
  });
  desk.state(told.read_only ? "the demo season, to look at" : "");
}
