// Waits for news of the shop and puts the page's new content in place of the old, without losing the reader's place.
"use strict";
(() => {
  const mark = document.querySelector("[data-version]");
  const base = mark.dataset.base;
  let version = Number(mark.dataset.version);
  const said = document.createElement("p");
  said.setAttribute("role", "status");
  said.className = "unseen";

  async function renew() {
    const answer = await fetch(location.href, { cache: "no-store" });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    version = Number(page.querySelector("[data-version]").dataset.version);
    const open = [...document.querySelectorAll("details")].map((d) => d.open);
    const focused = document.activeElement && document.activeElement.getAttribute("href");
    const [x, y] = [scrollX, scrollY];
    for (const link of page.head.querySelectorAll("link[rel=stylesheet]")) {
      const known = [...document.head.querySelectorAll("link[rel=stylesheet]")].map((l) => l.getAttribute("href"));
      if (!known.includes(link.getAttribute("href"))) document.head.append(link.cloneNode());
    }
    document.title = page.title;
    document.body.className = page.body.className;
    document.body.replaceChildren(...page.body.childNodes, said);
    document.querySelectorAll("details").forEach((d, i) => { if (open[i]) d.open = true; });
    if (focused) [...document.querySelectorAll("a")].find((a) => a.getAttribute("href") === focused)?.focus({ preventScroll: true });
    scrollTo(x, y);
    said.textContent = "The page has been renewed.";
    document.dispatchEvent(new CustomEvent("kerfleaf-renewed"));
  }

  async function listen() {
    for (;;) {
      try {
        const answer = await fetch(`${base}news?since=${version}`, { cache: "no-store" });
        const news = await answer.json();
        if (news.version !== version) await renew();
      } catch {
        said.textContent = "The preview has stopped.";
        await new Promise((done) => setTimeout(done, 1000));
      }
    }
  }
  document.body.append(said);
  listen();
})();
