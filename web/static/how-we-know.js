// Narrows the list of checks to what is asked for. Without it the page shows
// them all.
const byId = (id) => document.getElementById(id);
const form = byId("filter");
const sections = [...document.querySelectorAll(".subject")].map((element) => ({
  element,
  rows: [...element.querySelectorAll("tbody tr")].map((row) => ({ row, text: row.textContent.toLowerCase() })),
}));
const total = sections.reduce((n, s) => n + s.rows.length, 0);

function narrow() {
  const subject = byId("subject").value, state = byId("state").value, mark = byId("mark").value, rank = byId("class").value;
  const words = byId("word").value.toLowerCase().split(/\s+/).filter(Boolean);
  let shown = 0;
  for (const { element, rows } of sections) {
    const asked = !subject || element.dataset.subject === subject;
    let here = 0;
    for (const { row, text } of rows) {
      const show = asked && (!state || row.dataset.state === state) && (!mark || row.dataset.mark === mark) && (!rank || row.dataset.class === rank) && words.every((w) => text.includes(w));
      row.hidden = !show;
      if (show) here++;
    }
    element.hidden = here === 0;
    shown += here;
  }
  byId("shown").textContent = shown === total ? `${total} checks` : `${shown} of ${total} checks`;
}

// A link to a check must find it, whatever is asked for.
function reveal() {
  const target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (target?.closest("[hidden]")) {
    form.reset();
    narrow();
    target.scrollIntoView();
  }
}

form.addEventListener("input", narrow);
form.addEventListener("submit", (e) => e.preventDefault());
form.addEventListener("reset", () => setTimeout(narrow));
addEventListener("hashchange", reveal);
form.hidden = false;
narrow();
