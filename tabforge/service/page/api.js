// The service, as the page talks to it.

const BASE = new URL("api/v1/", document.baseURI);
const token = remembered();

function remembered() {
  const given = new URLSearchParams(location.hash.slice(1)).get("token") || new URLSearchParams(location.search).get("token");
  if (given) {
    sessionStorage.setItem("token", given);
    history.replaceState(null, "", location.pathname);
  }
  return sessionStorage.getItem("token");
}

function heads(more = {}) {
  return token ? { Authorization: `Bearer ${token}`, ...more } : more;
}

/** What the service refuses: its title, its sentence, its status. */
export class Refused extends Error {
  constructor(problem, status) {
    super(problem.detail || problem.title || `The service answered ${status}.`);
    this.status = status;
    this.problem = problem;
  }
}

async function answer(path, options = {}) {
  const response = await fetch(new URL(path, BASE), { ...options, headers: heads(options.headers) });
  if (response.ok) return response;
  let problem = {};
  try {
    problem = await response.json();
  } catch {
    // not every refusal is told as JSON
  }
  throw new Refused(problem, response.status);
}

function post(path, body, signal) {
  return answer(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body), signal });
}

export const studies = async () => (await answer("studies")).json();
export const view = async (body, signal) => (await post("view", body, signal)).json();
export const exported = (format, body) => post(`export/${format}`, body);
export const formats = async () => (await (await answer("version")).json()).formats;
export const choices = async () => (await answer("choices")).json();

/** Listen to the folder. ``on``: study, gone, lost, back. A stream that breaks is opened again. */
export function listen(on) {
  let wait = 500;
  let lost = false;
  const run = async () => {
    try {
      const response = await answer("events", { headers: { Accept: "text/event-stream" } });
      if (lost) on.back();
      else on.open?.();
      lost = false;
      wait = 500;
      await read(response.body.pipeThrough(new TextDecoderStream()).getReader(), on);
    } catch {
      // not there, or it broke off
    }
    if (!lost) on.lost();
    lost = true;
    setTimeout(run, wait);
    wait = Math.min(5000, wait * 2);
  };
  run();
}

/** Server-sent events, as the WHATWG HTML standard has them; read by hand, so that a token can be sent along. */
async function read(reader, on) {
  let rest = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    rest = (rest + value).replace(/\r\n?/g, "\n");
    const events = rest.split("\n\n");
    rest = events.pop();
    for (const event of events) {
      let name = "message";
      const data = [];
      for (const line of event.split("\n")) {
        if (line.startsWith("event:")) name = line.slice(6).trim();
        else if (line.startsWith("data:")) data.push(line.slice(5).trimStart());
      }
      if (data.length && on[name]) on[name](JSON.parse(data.join("\n")));
    }
  }
}
