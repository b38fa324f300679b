// Waits for news of the shop and puts the page's new content in place of the old, without losing the reader's place.
"use strict";
(() => {
  const mark = document.querySelector("[data-version]");
  const base = mark.dataset.base;
  let version = Number(mark.dataset.version);
  const said = document.createElement("p");
  said.setAttribute("role", "status");
  said.className = "kerfleaf-unseen";

  // Makes one node like another and leaves alone what is alike already, with whatever listens to it.
  function liken(old, fresh) {
    if (old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName) return old.replaceWith(fresh.cloneNode(true));
    if (old.nodeType !== Node.ELEMENT_NODE) {
      if (old.nodeValue !== fresh.nodeValue) old.nodeValue = fresh.nodeValue;
      return;
    }
    if (old.isEqualNode(fresh)) return;
    for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name) && !(old.nodeName === "DETAILS" && name === "open")) old.removeAttribute(name);
    for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
    const [olds, news] = [[...old.childNodes], [...fresh.childNodes]];
    news.forEach((node, i) => (olds[i] ? liken(olds[i], node) : old.append(node.cloneNode(true))));
    olds.slice(news.length).forEach((node) => node.remove());
  }

  async function renew() {
    const answer = await fetch(location.href, { cache: "no-store" });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    version = Number(page.querySelector("[data-version]").dataset.version);
    for (const link of page.head.querySelectorAll("link[rel=stylesheet]")) {
      const known = [...document.head.querySelectorAll("link[rel=stylesheet]")].map((l) => l.getAttribute("href"));
      if (!known.includes(link.getAttribute("href"))) document.head.append(link.cloneNode());
    }
    document.title = page.title;
    said.remove();
    liken(document.body, page.body);
    document.body.append(said);
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
