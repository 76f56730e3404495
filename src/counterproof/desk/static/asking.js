// Asking the desk: the token from the printed address, sent in a header and kept by this tab alone.

const KEPT = "counterproof-token";
const channel = new BroadcastChannel("counterproof-token");

/** Takes the token out of the address, so that neither history nor a screenshot holds it. */
export function tokenTaken() {
  const given = new URLSearchParams(location.hash.slice(1)).get("token");
  if (!given) return false;
  sessionStorage.setItem(KEPT, given);
  history.replaceState(null, "", location.pathname + location.search);
  return true;
}

// A second tab of the same address asks the first; nobody else hears this channel.
channel.onmessage = ({ data }) => {
  const kept = sessionStorage.getItem(KEPT);
  if (data === "who has it?" && kept) channel.postMessage({ token: kept });
  else if (data && data.token && !kept) {
    sessionStorage.setItem(KEPT, data.token);
    dispatchEvent(new Event("token"));
  }
};

export function tokenSought() {
  if (sessionStorage.getItem(KEPT)) return Promise.resolve(true);
  channel.postMessage("who has it?");
  return new Promise((told) => {
    const late = setTimeout(() => told(false), 400);
    addEventListener("token", () => { clearTimeout(late); told(true); }, { once: true });
  });
}

/** What went wrong, as the desk says it, or that it does not answer at all. */
export class Refused extends Error {
  constructor(status, told) {
    super(told.message);
    this.status = status;
    this.told = told;
  }
}

function header() {
  return { "Counterproof-Token": sessionStorage.getItem(KEPT) || "" };
}

export async function ask(path, told, signal) {
  const asked = told === undefined
    ? { headers: header(), signal }
    : { method: "POST", headers: { ...header(), "Content-Type": "application/json" }, body: JSON.stringify(told), signal };
  let answer;
  try {
    answer = await fetch(path, asked);
  } catch (fault) {
    if (fault.name === "AbortError") throw fault;
    throw new Refused(0, { message: "The desk does not answer.", remedy: "Start it again; what stands here stays." });
  }
  if (answer.ok) return answer;
  const document = await answer.json().catch(() => ({ error: { message: "The desk could not do this.", remedy: "" } }));
  const refused = new Refused(answer.status, document.error);
  refused.document = document;
  throw refused;
}

/** One JSON document a line, each handed over as soon as it is there. */
export async function stages(path, told, signal, each) {
  const answer = await ask(path, told, signal);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    const lines = (rest + value).split("\n");
    rest = lines.pop();
    for (const line of lines) if (line) each(JSON.parse(line));
  }
}
