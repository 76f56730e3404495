// The scale: readings are read and kept as they are typed, and written into the recipe when done.

let desk = null;
let asking = null;

async function weighed() {
  asking?.abort();
  asking = new AbortController();
  try {
    const told = { name: desk.view.name, text: desk.place("readings").value };
    const { html, said, ready } = await (await desk.ask("/weighed", told, asking.signal)).json();
    desk.place("weighed").innerHTML = html;
    if (desk.place("write-in")) desk.place("write-in").disabled = !ready;
    desk.said(said);
    desk.state(desk.view.readOnly ? "the demo season, to look at" : "kept");
  } catch (fault) {
    desk.failed(fault);
  }
}

async function writtenIn() {
  desk.place("scale-wrong").textContent = "";
  try {
    const told = { name: desk.view.name, text: desk.place("readings").value };
    const { batch } = await (await desk.ask("/weighed-in", told)).json();
    desk.place("readings").value = "";
    await weighed();
    desk.notice("written", `The weights stand in the recipe; the readings lie in ${batch}.`, [["Close", () => {}]]);
  } catch (fault) {
    if (fault.status === 422 || fault.status === 409) desk.place("scale-wrong").textContent = `${fault.told.message} ${fault.told.remedy}`;
    else desk.failed(fault);
  }
}

export async function laidOut(told, shared) {
  desk = shared;
  desk.place("readings").value = told.text;
  let due = 0;
  desk.place("readings").addEventListener("input", () => {
    desk.state("");
    clearTimeout(due);
    due = setTimeout(weighed, 120);
  });
  desk.place("write-in")?.addEventListener("click", writtenIn);
  await weighed();
}
