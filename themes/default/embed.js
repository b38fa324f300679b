// Puzzles of this catalogue inside another site: <kerf-card design="slug"> and <kerf-shelf subject="…" form="…" most="6">.
// Both take lang="…" (one of the catalogue's languages). They read catalogue.json beside this script's folder, live in a shadow tree
// with a style sheet of their own, and set no HTML from text, so that a strict policy of the site can stay: it must allow this
// catalogue's address in script-src, connect-src and img-src, and nothing inline. On another host the catalogue must be served
// with Access-Control-Allow-Origin. To fit the site: the custom properties --kerf-ink, --kerf-accent, --kerf-font, and
// ::part(card), ::part(title), ::part(facts), ::part(price).
(() => {
	"use strict";
	const own = document.currentScript?.src ?? [...document.scripts].map((s) => s.src).find((src) => src.endsWith("/embed/kerfleaf.js"));
	const root = new URL("../", own);

	/** The catalogue as far as it has been read: a design a line, newest first. Reading ends as soon as no element waits for more. */
	const known = { shop: null, designs: [], whole: false };
	const waiting = new Set();
	let reading = false;

	/** Resolves once `enough` is true of what is known, or all is. */
	const read = (enough) =>
		new Promise((resolve, reject) => {
			if (known.whole || (known.shop && enough())) return resolve();
			waiting.add({ enough, resolve, reject });
			if (!reading) lines();
		});

	function settle(done, how = "resolve", why) {
		for (const one of waiting) {
			if (!done && !one.enough()) continue;
			waiting.delete(one);
			one[how](why);
		}
	}

	async function lines() {
		reading = true;
		try {
			const answer = await fetch(new URL("catalogue.json", root), { credentials: "omit" });
			if (!answer.ok) throw new Error(`${answer.status} ${answer.url}`);
			const source = answer.body.pipeThrough(new TextDecoderStream()).getReader();
			let rest = "";
			let at = 0;
			while (waiting.size) {
				const { value, done } = await source.read();
				if (done) {
					known.whole = true;
					settle(true);
					return;
				}
				const parts = (rest + value).split("\n");
				rest = parts.pop();
				for (const line of parts) {
					if (line.startsWith('"shop":')) known.shop = JSON.parse(line.slice(7, -1));
					else if (line.startsWith("{") && known.shop) known.designs[at++] = JSON.parse(line.replace(/,$/, ""));
				}
				if (known.shop) settle(false);
			}
			source.cancel();
		} catch (error) {
			settle(true, "reject", error);
		} finally {
			reading = false;
		}
	}

	const sheet = new CSSStyleSheet();
	sheet.replaceSync(`
		:host{display:block!important}
		:host([hidden]){display:none!important}
		.in{all:initial;display:block;direction:inherit;color-scheme:light dark;color:var(--kerf-ink,CanvasText);font:400 medium/1.5 var(--kerf-font,system-ui,sans-serif);font-variant-numeric:lining-nums tabular-nums}
		.shelf{display:grid;gap:2em 1.5em;grid-template-columns:repeat(auto-fill,minmax(min(15em,100%),1fr));align-items:end}
		a{color:inherit;text-decoration:none;display:block}
		a:hover .title{text-decoration:underline}
		a:focus-visible{outline:2px solid var(--kerf-accent,currentColor);outline-offset:3px}
		img{display:block;width:100%;height:auto}
		.title{display:block;font-size:1.2em;margin-block:.6em .15em;color:var(--kerf-accent,inherit)}
		.facts,.price{display:block;font-size:.9em}
	`);

	const make = (tag, name, text) => {
		const node = document.createElement(tag);
		node.className = name;
		node.part = name;
		if (text) node.textContent = text;
		return node;
	};

	/** One design as a link with its picture, figures and price. */
	function card(design, language) {
		const words = design.words[language];
		const link = make("a", "card");
		link.href = new URL(words.address.replace(/index\.html$/, root.protocol === "file:" ? "$&" : ""), root);
		const shot = design.pictures.find((picture) => !picture.spoiler && picture.view !== "close-up");
		if (shot) {
			const image = make("img", "picture");
			Object.assign(image, { loading: "lazy", decoding: "async", alt: words.alt ?? "", width: shot.width, height: shot.height, sizes: "(min-width: 40rem) 24rem, 92vw" });
			image.srcset = shot.webp.map((source) => `${new URL(source.address, root)} ${source.width}w`).join(", ");
			image.src = new URL(design.picture, root);
			link.append(image);
		}
		link.append(make("span", "title", words.title), make("span", "facts", [words.pieces, words.size, words.difficulty].join(" · ")));
		if (words.price) link.append(make("span", "price", [words.forms, words.price].join(" · ")));
		return link;
	}

	class Element extends HTMLElement {
		connectedCallback() {
			if (!this.shadowRoot) this.attachShadow({ mode: "open" }).adoptedStyleSheets = [sheet];
			this.draw();
		}
		attributeChangedCallback() {
			if (this.isConnected && this.shadowRoot) this.draw();
		}
		async draw() {
			const turn = (this.turn = (this.turn ?? 0) + 1);
			try {
				await read(() => this.chosen().length >= this.most());
				if (turn !== this.turn) return;
				const { languages } = known.shop;
				const wanted = this.lang || this.closest("[lang]")?.lang || languages[0];
				const language = [wanted, wanted.split("-")[0], languages[0]].find((tag) => languages.includes(tag));
				const inside = make("div", `in ${this.localName === "kerf-shelf" ? "shelf" : "one"}`);
				inside.removeAttribute("part");
				inside.lang = language;
				inside.append(...this.chosen().slice(0, this.most()).map((design) => card(design, language)));
				this.shadowRoot.replaceChildren(inside);
				this.dispatchEvent(new CustomEvent("kerf-drawn", { bubbles: true }));
			} catch (error) {
				this.dispatchEvent(new CustomEvent("kerf-failed", { bubbles: true, detail: error }));
			}
		}
	}

	class Card extends Element {
		static observedAttributes = ["design", "lang"];
		most() {
			return 1;
		}
		chosen() {
			return known.designs.filter((design) => design.slug === this.getAttribute("design"));
		}
	}

	class Shelf extends Element {
		static observedAttributes = ["subject", "form", "most", "lang"];
		most() {
			return Number(this.getAttribute("most")) || Infinity;
		}
		chosen() {
			const [subject, form] = ["subject", "form"].map((name) => this.getAttribute(name));
			return known.designs
				.filter((design) => !subject || design.subjects.includes(subject))
				.filter((design) => !form || design.offers.some((offer) => offer.form === form));
		}
	}

	customElements.define("kerf-card", Card);
	customElements.define("kerf-shelf", Shelf);
})();
