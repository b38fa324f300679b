// Search, comparing side by side, and pictures to look into. Every page is whole without this script; it loads nothing but
// the data of the search, and that only when somebody searches.
(() => {
	"use strict";
	const one = (selector, from = document) => from.querySelector(selector);
	const all = (selector, from = document) => [...from.querySelectorAll(selector)];
	const make = (tag, attributes = {}, ...children) => {
		const node = document.createElement(tag);
		for (const [name, value] of Object.entries(attributes)) {
			if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
			else if (value !== false && value != null) node.setAttribute(name, value === true ? "" : value);
		}
		node.append(...children);
		return node;
	};

	/* Search */

	const form = one(".finder");
	if (form) search(form);

	function search(form) {
		const { data, home, root } = { data: form.dataset.shelf, home: form.dataset.home, root: form.dataset.root };
		const shelf = one(".shelf");
		const pager = one(".pager");
		const status = one("[role=status]", form);
		const clear = one("[type=reset]", form);
		const limits = one("#limits");
		const narrow = one(".narrow", form);
		const weigh = one(".weigh", form);
		const found = make("div", { class: "shelf found", hidden: true });
		shelf.after(found);
		let stock = null;
		let loading = null;
		let shown = 0;
		let chosen = [];
		let answers = [];

		/** The data of the search, once. A script element, since a page opened from a disk may fetch nothing. */
		function load() {
			loading ??= new Promise((resolve, reject) => {
				const script = make("script", { src: data });
				script.onload = () => resolve((stock = prepared(self.kerfleafShelf)));
				script.onerror = reject;
				document.head.append(script);
			});
			return loading;
		}

		const fold = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/ß/g, "ss");
		const wordsOf = (text) => fold(text).match(/[\p{L}\p{N}]+/gu) ?? [];

		/** Every word of the catalogue with the designs it stands in, and how much it weighs there. */
		function prepared(shelf) {
			const index = new Map();
			const add = (text, at, weight) => {
				for (const word of wordsOf(text ?? "")) {
					if (!index.has(word)) index.set(word, new Map());
					const places = index.get(word);
					places.set(at, Math.max(weight, places.get(at) ?? 0));
				}
			};
			shelf.designs.forEach((design, at) => {
				add(design.title, at, 4);
				for (const subject of design.subjects) add(shelf.subjects[subject], at, 3);
				add(`${design.forms} ${design.label} ${design.wood}`, at, 2);
				add(design.more, at, 1);
				design.at = at;
				design.least = Math.min(...design.offers.map(([, price]) => price));
			});
			shelf.index = index;
			shelf.template = make("template");
			shelf.template.innerHTML = shelf.entry;
			shelf.number = new Intl.NumberFormat(shelf.language);
			shelf.order = new Intl.Collator(shelf.language);
			return shelf;
		}

		/** How many letters must be changed, left out, added or swapped, but no more than `most`. Damerau 1964, optimal string alignment. */
		function away(a, b, most) {
			if (Math.abs(a.length - b.length) > most) return most + 1;
			let before = [];
			let last = Array.from({ length: b.length + 1 }, (_, i) => i);
			for (let i = 1; i <= a.length; i++) {
				const row = [i];
				let least = i;
				for (let j = 1; j <= b.length; j++) {
					let cost = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
					if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, before[j - 2] + 1);
					row.push(cost);
					least = Math.min(least, cost);
				}
				if (least > most) return most + 1;
				before = last;
				last = row;
			}
			return last[b.length];
		}

		/** How well a word of the catalogue answers a word that was typed, 0 to 1. */
		function answer(typed, word) {
			if (word === typed) return 1;
			if (word.startsWith(typed)) return 0.9;
			if (typed.length > 3 && word.includes(typed)) return 0.6;
			const most = typed.length < 4 ? 0 : typed.length < 8 ? 1 : 2;
			if (!most) return 0;
			const apart = Math.min(away(typed, word, most), word.length > typed.length ? away(typed, word.slice(0, typed.length), most) : 9);
			return apart > most ? 0 : 0.5 - 0.1 * apart;
		}

		/** Designs that answer every word typed, each with its weight; null where nothing was typed. */
		function answering(text) {
			let kept = null;
			for (const typed of wordsOf(text)) {
				const now = new Map();
				for (const [word, places] of stock.index) {
					const fit = answer(typed, word);
					if (!fit) continue;
					for (const [at, weight] of places) now.set(at, Math.max(now.get(at) ?? 0, fit * weight));
				}
				const before = kept;
				kept = before ? new Map([...now].filter(([at]) => before.has(at)).map(([at, w]) => [at, w + before.get(at)])) : now;
			}
			return kept;
		}

		const sorts = {
			title: (a, b) => stock.order.compare(a.title, b.title),
			few: (a, b) => a.count - b.count,
			many: (a, b) => b.count - a.count,
			gentle: (a, b) => a.score - b.score,
			fiendish: (a, b) => b.score - a.score,
			price: (a, b) => a.least - b.least,
		};

		function fitting(state) {
			const number = (name) => (state.get(name) ? Number(state.get(name)) : null);
			const within = (value, name, scale = 1) => {
				const [from, to] = [number(`${name}-from`), number(`${name}-to`)];
				return (from === null || value >= from * scale - 0.05) && (to === null || value <= to * scale + 0.05);
			};
			const [forms, words, subject, ready] = [state.getAll("form"), state.getAll("word"), state.get("subject"), state.get("ready")];
			const typed = answering(state.get("q") ?? "");
			const priced = state.get("price-from") || state.get("price-to");
			const fits = (design) =>
				(!typed || typed.has(design.at)) &&
				(!words.length || words.includes(design.word)) &&
				(!subject || design.subjects.some((at) => stock.subjects[at] === subject)) &&
				within(design.count, "count") &&
				within(design.side, "side", stock.perSide) &&
				(!(forms.length || ready || priced) ||
					design.offers.some(([form, price, left]) => (!forms.length || forms.includes(form)) && (!ready || left > 0) && within(price, "price", stock.perCoin)));
			const sort = sorts[state.get("sort")] ?? (typed ? (a, b) => typed.get(b.at) - typed.get(a.at) : () => 0);
			return stock.designs.filter(fits).sort((a, b) => sort(a, b) || a.at - b.at);
		}

		/** What is asked for: the fields that say something, in the form's order. */
		function asked() {
			const state = new URLSearchParams();
			for (const [name, value] of new FormData(form)) if (String(value).trim()) state.append(name, value);
			return state;
		}

		async function show(keep = true) {
			const state = asked();
			const plain = !state.toString();
			if (keep) remember(state);
			clear.hidden = plain;
			if (plain) {
				shelf.hidden = false;
				if (pager) pager.hidden = false;
				found.hidden = true;
				found.replaceChildren();
				status.textContent = "";
				return;
			}
			await load();
			if (asked().toString() !== state.toString()) return;
			answers = fitting(state);
			shown = 0;
			found.replaceChildren();
			more();
			shelf.hidden = true;
			if (pager) pager.hidden = true;
			found.hidden = false;
			const say = answers.length ? stock.say["finder-found"] : stock.say["finder-none"];
			status.textContent = said(say, { n: stock.number.format(answers.length), total: stock.number.format(stock.designs.length) });
		}

		const said = (text, values) => text.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);

		/** The next rows of answers, in the rhythm of the lists. */
		function more() {
			one(".more", found)?.remove();
			const rows = [];
			let width = Infinity;
			for (const design of answers.slice(shown, shown + 36)) {
				if (width >= [3.6, 2.3][rows.length % 2]) {
					rows.push(make("div", { class: "row" }));
					width = 0;
				}
				width += design.picture ? design.picture.width / design.picture.height : 1;
				rows.at(-1).append(card(design));
			}
			shown += 36;
			found.append(...rows);
			if (shown < answers.length) {
				found.append(make("p", { class: "more" }, make("button", { type: "button", onclick: () => {
					const last = found.querySelectorAll(".row").length;
					more();
					found.querySelectorAll(".row")[last]?.querySelector("a")?.focus({ preventScroll: true });
				} }, stock.say["finder-more"])));
			}
		}

		const address = (picture, at) => root + picture.stem + picture.sizes[at][1];
		const set = (picture) => picture.sizes.map(([width], at) => `${address(picture, at)} ${width}w`).join(", ");

		/** One answer: the theme's own entry with this design's values in it. */
		function card(design) {
			const picture = design.picture;
			const values = { slug: design.slug, href: home + design.href, title: design.title, pieces: design.pieces, size: design.size,
				at: design.score, word: design.word, label: design.label, forms: design.forms, price: design.price, accent: design.accent,
				...(picture && { alt: picture.alt, width: picture.width, height: picture.height, ground: picture.ground, shape: picture.shape,
					src: address(picture, 0), webp: set(picture) }) };
			const fill = (text) => text.replace(/kf-([a-z]+)/g, (_, name) => values[name] ?? "");
			const node = stock.template.content.firstElementChild.cloneNode(true);
			for (const part of [node, ...all("*", node)]) {
				for (const { name, value } of [...part.attributes]) if (value.includes("kf-")) part.setAttribute(name, fill(value));
				for (const child of part.childNodes) if (child.nodeType === 3 && child.data.includes("kf-")) child.data = fill(child.data);
			}
			if (!picture) one(".frame", node)?.remove();
			if (design.sold) node.classList.add("sold");
			if (weighing()) pick(node);
			return node;
		}

		/** The state lives in the address, behind the #, where it works on a disk as well. */
		function remember(state = asked()) {
			if (chosen.length && weighing()) state.set("compare", chosen.join(" "));
			const text = state.toString();
			if (text !== location.hash.slice(1)) history.replaceState(null, "", text ? `#${text}` : location.pathname + location.search);
		}

		function recall() {
			const text = location.hash.slice(1);
			if (text && !text.includes("=")) return;
			const state = new URLSearchParams(text);
			for (const field of form.elements) {
				if (!field.name) continue;
				if (field.type === "checkbox") field.checked = state.getAll(field.name).includes(field.value);
				else field.value = state.get(field.name) ?? "";
			}
			if ([...state.keys()].some((name) => !["q", "sort", "compare"].includes(name))) open(true);
			const compared = (state.get("compare") ?? "").split(" ").filter(Boolean).slice(0, 3);
			if (compared.length) {
				load().then(() => {
					chosen = compared.filter((slug) => stock.designs.some((design) => design.slug === slug));
					weighIt(true);
					if (chosen.length > 1) sideBySide();
				});
			}
			show(false);
		}

		function open(yes) {
			limits.hidden = !yes;
			narrow.setAttribute("aria-expanded", yes);
		}

		form.addEventListener("submit", (event) => event.preventDefault());
		form.addEventListener("input", () => show());
		form.addEventListener("focusin", () => load().catch(() => {}), { once: true });
		form.addEventListener("reset", () => setTimeout(() => { show(); one("[name=q]", form).focus(); }));
		narrow.addEventListener("click", () => open(limits.hidden));
		window.addEventListener("hashchange", recall);

		/* Side by side */

		const tray = make("div", { class: "tray", hidden: true });
		document.body.append(tray);
		const weighing = () => weigh.getAttribute("aria-pressed") === "true";
		weigh.addEventListener("click", async () => {
			await load();
			weighIt(!weighing());
			remember();
		});

		function weighIt(yes) {
			weigh.setAttribute("aria-pressed", yes);
			if (!yes) chosen = [];
			all(".pick").forEach((button) => button.remove());
			if (yes) all("[data-slug]").forEach(pick);
			counted();
		}

		function pick(node) {
			const slug = node.dataset.slug;
			const title = stock.designs.find((design) => design.slug === slug)?.title;
			if (!title) return;
			const button = make("button", { type: "button", class: "pick", "aria-pressed": chosen.includes(slug), "aria-label": said(stock.say["compare-pick"], { title }) });
			button.addEventListener("click", () => {
				if (chosen.includes(slug)) chosen = chosen.filter((other) => other !== slug);
				else if (chosen.length < 3) chosen.push(slug);
				counted();
				remember();
			});
			node.append(button);
		}

		function counted() {
			all("[data-slug]").forEach((node) => one(".pick", node)?.setAttribute("aria-pressed", chosen.includes(node.dataset.slug)));
			tray.hidden = !weighing();
			if (tray.hidden) return;
			let [words, button] = tray.children;
			if (!words) {
				words = make("span", { role: "status" });
				button = make("button", { type: "button", onclick: () => sideBySide() }, stock.say["compare-show"]);
				tray.append(words, button);
			}
			words.textContent = said(stock.say["compare-chosen"], { n: stock.number.format(chosen.length) });
			button.disabled = chosen.length < 2;
		}

		/** Two or three boards at one scale, with their figures below. */
		function sideBySide() {
			const designs = chosen.map((slug) => stock.designs.find((design) => design.slug === slug)).filter(Boolean);
			const widest = Math.max(...designs.map((design) => design.scale?.width ?? design.side));
			const heading = make("h2", { id: "side-by-side" }, stock.say["compare-title"]);
			const board = (design) => {
				const picture = design.scale && (design.scale.picture ?? design.picture);
				const image = picture && make("img", { src: address(picture, 0), srcset: set(picture), sizes: "30vw", alt: picture.alt, width: picture.width, height: picture.height });
				if (image) image.style.width = `${(design.scale.width / widest) * 100}%`;
				return make("td", { role: "cell", class: design.accent }, ...(image ? [image] : []),
					make("a", { href: home + design.href }, design.title),
					make("button", { type: "button", class: "drop", "aria-label": said(stock.say["compare-drop"], { title: design.title }), onclick: () => {
						chosen = chosen.filter((slug) => slug !== design.slug);
						counted();
						remember();
						dialog.close();
						if (chosen.length > 1) sideBySide();
					} }, "×"));
			};
			const line = (label, values) => make("tr", { role: "row" }, make("th", { role: "rowheader", scope: "row" }, label), ...values.map((value) => make("td", { role: "cell" }, value)));
			const [size, pieces, difficulty, weight, wood, price] = stock.facts;
			const rows = [[size, "size"], [pieces, "pieces"], [difficulty, "label"], [weight, "weight"], [wood, "wood"], [price, "price"]];
			const table = make("table", { role: "table", class: `of${designs.length}` },
				make("tbody", { role: "rowgroup" },
					make("tr", { role: "row", class: "boards" }, make("th", { role: "rowheader", scope: "row" }, stock.say["compare-words"]), ...designs.map(board)),
					...rows.map(([label, key]) => line(label, designs.map((design) => design[key])))));
			const dialog = modal("scales", { "aria-labelledby": "side-by-side" }, stock.say.close, heading, table);
		}

		if (location.hash.includes("=")) recall();
	}

	/** A dialog over the page that is gone once closed. Focus goes back by itself. */
	function modal(name, attributes, close, ...children) {
		const dialog = make("dialog", { class: name, ...attributes }, make("button", { type: "button", class: "close", "aria-label": close, onclick: () => dialog.close() }, "×"), ...children);
		dialog.addEventListener("close", () => dialog.remove());
		dialog.addEventListener("click", (event) => event.target === dialog && dialog.close());
		document.body.append(dialog);
		dialog.showModal();
		return dialog;
	}

	/* Pictures to look into */

	const pictures = one(".pictures");
	if (pictures) pictures.addEventListener("click", (event) => {
		const link = event.target.closest("figure a");
		if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
		event.preventDefault();
		look(all("figure a", pictures).filter((other) => other.offsetParent), link);
	});

	/** One picture after the other on the whole screen: arrows, swipes, and nearer by a press, never beyond the picture's own pixels. */
	function look(links, first) {
		const say = pictures.dataset;
		let at = links.indexOf(first);
		const image = make("img", { draggable: "false", alt: "" });
		const stage = make("div", { class: "stage", tabindex: "0" }, image);
		const caption = make("p", { role: "status" });
		const turn = (step) => show((at + step + links.length) % links.length);
		const arrow = (label, sign, step) => make("button", { type: "button", "aria-label": label, onclick: () => turn(step) }, sign);
		const nearer = make("button", { type: "button", "aria-label": say.nearer, "aria-pressed": "false", onclick: () => near() }, "+");
		const rtl = document.dir === "rtl";
		const bar = make("div", { class: "turn" }, ...(links.length > 1 ? [arrow(say.before, rtl ? "→" : "←", -1)] : []), caption, nearer,
			...(links.length > 1 ? [arrow(say.after, rtl ? "←" : "→", 1)] : []));
		const dialog = modal("viewer", { "aria-label": say.label }, say.close, stage, bar);

		function show(index) {
			at = index;
			const inside = one("img", links[at]);
			near(false);
			image.src = links[at].href;
			image.alt = inside.alt;
			const words = one("figcaption", links[at].closest("figure"))?.textContent ?? inside.alt;
			caption.textContent = links.length > 1 ? `${words} · ${at + 1}/${links.length}` : words;
		}

		/** From the whole to the picture's own pixels and back, round the point that was pressed. */
		function near(yes = !stage.classList.contains("near"), x = 0.5, y = 0.5) {
			stage.classList.toggle("near", yes);
			nearer.setAttribute("aria-pressed", yes);
			nearer.textContent = yes ? "–" : "+";
			if (yes) stage.scrollTo((stage.scrollWidth - stage.clientWidth) * x, (stage.scrollHeight - stage.clientHeight) * y);
		}

		let down = null;
		stage.addEventListener("pointerdown", (event) => {
			down = { x: event.clientX, y: event.clientY, left: stage.scrollLeft, top: stage.scrollTop, touch: event.pointerType === "touch" };
			if (!down.touch) stage.setPointerCapture(event.pointerId);
		});
		stage.addEventListener("pointermove", (event) => {
			if (!down || down.touch || !stage.classList.contains("near")) return;
			stage.scrollTo(down.left - (event.clientX - down.x), down.top - (event.clientY - down.y));
		});
		stage.addEventListener("pointerup", (event) => {
			if (!down) return;
			const [dx, dy] = [event.clientX - down.x, event.clientY - down.y];
			const box = image.getBoundingClientRect();
			if (!stage.classList.contains("near") && Math.abs(dx) > 40 && Math.abs(dx) > 2 * Math.abs(dy)) turn((dx < 0) === rtl ? -1 : 1);
			else if (Math.hypot(dx, dy) < 8) near(undefined, (event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height);
			down = null;
		});
		stage.addEventListener("pointercancel", () => (down = null));
		dialog.addEventListener("keydown", (event) => {
			if (stage.classList.contains("near") && event.target === stage) return;
			const step = { ArrowLeft: rtl ? 1 : -1, ArrowRight: rtl ? -1 : 1 }[event.key];
			if (step && links.length > 1) {
				event.preventDefault();
				turn(step);
			}
		});
		show(at);
		stage.focus();
	}
})();
