// The bench view: a design's drawing with what was found on it. All numbers come from the program; here they are only shown.
"use strict";
(() => {
  const base = document.body.dataset.base;
  let version = Number(document.body.dataset.version);
  const at = (id) => document.getElementById(id);
  const svg = at("drawing");
  const SVG = "http://www.w3.org/2000/svg";
  let data = null, kerf = null, view = null, chosen = null;

  function make(name, attributes, parent, text) {
    const element = name.startsWith("svg:") ? document.createElementNS(SVG, name.slice(4)) : document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) if (value !== null && value !== undefined) element.setAttribute(key, value);
    if (text !== undefined) element.textContent = text;
    if (parent) parent.append(element);
    return element;
  }
  const number = (value, decimals = 0) => value.toFixed(decimals);

  // From light to dark by size; the order is that of the areas, so that it can be told without colour by the numbers in the list.
  function shade(share) { return `hsl(32 ${30 + 25 * share}% ${92 - 52 * share}%)`; }
  const HUES = [210, 30, 120, 280, 0, 170, 60, 330];

  function fills() {
    const show = document.querySelector("input[name=show]:checked").value;
    const areas = data.pieces.map((p) => p.area_mm2);
    const [least, most] = [Math.min(...areas), Math.max(...areas)];
    const of = {
      plain: () => "#efe0c4",
      size: (p) => shade(most > least ? (p.area_mm2 - least) / (most - least) : 0.5),
      edge: (p) => (p.edge ? "#c9a26b" : "#f6ecd9"),
      twins: (p) => (p.twins ? `hsl(${HUES[(p.twins - 1) % HUES.length]} 45% 72%)` : "#f6ecd9"),
      novelty: (p) => (p.novelty ? "#9bb58a" : "#f6ecd9"),
    }[show];
    const count = (test) => data.pieces.filter(test).length;
    at("key").textContent = {
      plain: "",
      size: `The darker the larger: ${number(least)} to ${number(most)} mm².`,
      edge: `Dark: ${count((p) => p.edge)} edge pieces.`,
      twins: `${count((p) => p.twins)} pieces have an equal one; each colour is one class.`,
      novelty: `Green: ${count((p) => p.novelty)} novelty pieces.`,
    }[show];
    if (at("joints").checked) at("key").textContent += " Rings: the joint holds. Squares: it comes apart by a straight pull, red between two edge pieces.";
    return of;
  }

  function draw() {
    const of = fills();
    if (!view) view = [...data.view];
    // Marks, numbers and lines keep nearly their size on the screen, so that none covers what it points at.
    const k = Math.min(1, 1.4 * Math.max(view[2] / data.view[2], view[3] / data.view[3]));
    const nodes = [];
    const pieces = make("svg:g", { stroke: "#1d1a17", "stroke-width": 0.15 * k });
    for (const piece of data.pieces) make("svg:path", { d: piece.cut, fill: of(piece), "fill-rule": "evenodd", "data-piece": piece.number }, pieces);
    nodes.push(pieces, make("svg:path", { d: data.score, fill: "none", stroke: "#a3542a", "stroke-width": 0.25 * k, opacity: "0.7" }));
    if (at("joints").checked) {
      const joints = make("svg:g", { "stroke-width": 0.4 * k });
      for (const joint of data.joints) {
        const [x, y] = joint.at_mm;
        // Holds: a ring. Slides: a filled square, larger.
        if (joint.holds) make("svg:circle", { cx: x, cy: y, r: 1.1 * k, fill: "none", stroke: "#2f6b3a" }, joints);
        else make("svg:rect", { x: x - 1.6 * k, y: y - 1.6 * k, width: 3.2 * k, height: 3.2 * k, fill: joint.edge ? "#b3261e" : "#c98a2b", stroke: "none" }, joints);
      }
      nodes.push(joints);
    }
    if (at("numbers").checked) {
      const numbers = make("svg:g", { "font-size": 4 * k, "text-anchor": "middle", fill: "#1d1a17", "font-family": "system-ui, sans-serif" });
      for (const piece of data.pieces) make("svg:text", { x: piece.at_mm[0], y: piece.at_mm[1] + 1.4 * k }, numbers, piece.number);
      nodes.push(numbers);
    }
    for (const finding of data.inspection.findings) {
      if (!finding.at_mm) continue;
      const [x, y] = finding.at_mm;
      const colour = finding.severity === "problem" ? "#b3261e" : "#1f5a8c";
      const mark = make("svg:g", { class: "mark", "data-finding": finding.number });
      make("svg:circle", { cx: x, cy: y, r: (finding.number === chosen ? 4 : 2.4) * k, fill: "#fff", "fill-opacity": 0.15, stroke: colour, "stroke-width": (finding.number === chosen ? 1 : 0.6) * k }, mark);
      nodes.push(mark);
    }
    svg.replaceChildren(...nodes);
    svg.setAttribute("viewBox", view.join(" "));
    const f = data.figures;
    at("drawing-words").textContent = `Drawing of ${data.title}: ${f.pieces.count} pieces, ${f.pieces.edge} of them edge pieces; ${data.inspection.findings.length} findings, listed beside it.`;
  }

  function figures() {
    const f = data.figures, list = at("figures");
    const rows = [
      ["Pieces", f.pieces.count], ["Edge, interior", `${f.pieces.edge}, ${f.pieces.interior}`],
      ["Edge joints that hold", `${f.joints.edge_hold} of ${f.joints.edge}`], ["All joints that hold", `${f.joints.all_hold} of ${f.joints.all}`],
      ["Size", `${number(f.size.width_mm, 1)} × ${number(f.size.height_mm, 1)} × ${number(f.size.thickness_mm, 1)} mm`],
      ["Smallest, median, largest", `${number(f.pieces.smallest_mm2)}, ${number(f.pieces.median_mm2)}, ${number(f.pieces.largest_mm2)} mm²`],
      ["Novelty shapes", f.pieces.novelty_shapes], ["Equal pieces", f.pieces.twins],
      ["Cuts, scores", `${number(f.lines.cut_mm)}, ${number(f.lines.score_mm)} mm`],
      ["Board", `${number(f.weight.board_g)} g`], ["Difficulty", `${number(f.difficulty.score)} ${f.difficulty.word}`],
      ["Paint cells", f.paint ? f.paint.cells : "–"], ["Drawing mark", f.mark],
    ];
    for (const offer of f.weight.offers) rows.push([`${offer.code}, packed`, `${number(offer.packed_g)} g`]);
    list.replaceChildren();
    for (const [name, value] of rows) { make("dt", {}, list, name); make("dd", {}, list, String(value)); }
  }

  function findings() {
    const list = at("findings");
    const focused = document.activeElement && document.activeElement.dataset.finding;
    list.replaceChildren();
    for (const finding of data.inspection.findings) {
      const row = make("li", {}, list);
      const button = make("button", { type: "button", class: finding.severity, "data-finding": finding.number, "aria-pressed": finding.number === chosen }, row);
      make("strong", {}, button, `${finding.number}. ${finding.kind} (${finding.severity})`);
      make("small", {}, button, `${finding.message} ${finding.mend}`);
      button.addEventListener("click", () => choose(finding.number));
      if (String(finding.number) === focused) button.focus({ preventScroll: true });
    }
    if (!data.inspection.findings.length) make("li", {}, list, "None.");
    const twins = data.inspection.twins.map((c) => c.join(", "));
    at("twins").textContent = twins.length ? `Equal pieces: ${twins.join("; ")}.` : "";
  }

  function choose(n) {
    chosen = chosen === n ? null : n;
    const finding = data.inspection.findings.find((f) => f.number === chosen);
    view = finding && finding.at_mm ? [finding.at_mm[0] - 25, finding.at_mm[1] - 20, 50, 40] : [...data.view];
    draw();
    for (const button of document.querySelectorAll("#findings button")) button.setAttribute("aria-pressed", String(Number(button.dataset.finding) === chosen));
  }

  function sheets() {
    const box = at("sheets");
    if (box.dataset.of === JSON.stringify(data.sheets)) {
      for (const object of box.querySelectorAll("object")) object.data = `${object.data.split("?")[0]}?v=${data.version}`;
      return;
    }
    box.dataset.of = JSON.stringify(data.sheets);
    box.replaceChildren();
    if (data.sheets.length) make("h2", {}, box, "Sheets");
    for (const sheet of data.sheets) {
      const details = make("details", {}, box);
      make("summary", {}, details, sheet.name);
      make("a", { href: sheet.address, target: "_blank", rel: "noopener" }, make("p", {}, details), "in a window of its own");
      details.addEventListener("toggle", () => {
        if (details.open && !details.querySelector("object")) make("object", { type: "application/pdf", data: `${sheet.address}?v=${data.version}`, "aria-label": sheet.name }, details);
      });
    }
  }

  function show() {
    at("mistakes").replaceChildren(...(data.mistakes || []).map((text) => make("pre", { class: "mistake" }, null, text)));
    if (data.mistakes) return;
    at("title").textContent = data.title + (data.status === "draft" ? " (draft)" : "");
    if (kerf === null) at("kerf").value = data.kerf_mm;
    at("kerf-words").textContent = `${number(data.kerf_mm, 2)} mm${kerf === null ? "" : ", tried"}`;
    draw(); figures(); findings(); sheets();
    document.body.dataset.version = data.version;
    document.dispatchEvent(new CustomEvent("kerfleaf-renewed"));
  }

  let asking = false, again = false;
  async function ask() {
    if (asking) { again = true; return; }
    asking = true;
    do {
      again = false;
      const answer = await fetch(`data.json${kerf === null ? "" : `?kerf=${kerf}`}`, { cache: "no-store" });
      const found = await answer.json();
      const moved = data && data.view && found.view && String(found.view) !== String(data.view);
      data = found;
      version = data.version;
      if (moved && chosen === null) view = null;
      show();
    } while (again);
    asking = false;
  }

  for (const input of document.querySelectorAll("input[name=show], #joints, #numbers")) input.addEventListener("change", () => data && data.pieces && draw());
  at("whole").addEventListener("click", () => { chosen = null; view = null; if (data && data.pieces) { draw(); findings(); } });
  at("kerf").addEventListener("input", () => { kerf = Number(at("kerf").value); ask(); });
  at("kerf-own").addEventListener("click", () => { kerf = null; ask(); });
  svg.addEventListener("click", (event) => {
    const mark = event.target.closest("[data-finding]");
    if (mark) choose(Number(mark.dataset.finding));
  });

  async function listen() {
    for (;;) {
      try {
        const answer = await fetch(`${base}news?since=${version}`, { cache: "no-store" });
        const news = await answer.json();
        if (news.version !== version) { version = news.version; await ask(); at("news").textContent = "The figures have been renewed."; }
      } catch {
        at("news").textContent = "The preview has stopped.";
        await new Promise((done) => setTimeout(done, 1000));
      }
    }
  }
  ask().then(listen);
})();
