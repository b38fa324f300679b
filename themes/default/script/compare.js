// Two or three designs side by side, true to each other's scale.

/** The button `weigh` turns choosing on and off; `load` brings the shelf, `remember` keeps what was chosen in the address. */
function comparing({ weigh, home, root, load, remember }) {
	let stock = null;
	let chosen = [];
	const tray = make("div", { class: "tray", hidden: true });
	document.body.append(tray);
	const on = () => weigh.getAttribute("aria-pressed") === "true";
	weigh.addEventListener("click", async () => {
		await turn(!on());
		remember();
	});

	async function turn(yes, slugs = []) {
		stock = await load();
		chosen = slugs.filter((slug) => stock.designs.some((design) => design.slug === slug)).slice(0, 3);
		weigh.setAttribute("aria-pressed", yes);
		all(".pick").forEach((button) => button.remove());
		if (yes) all("[data-slug]").forEach(pick);
		counted();
	}

	/** Chosen or no longer; three at most. */
	function choose(slug) {
		if (chosen.includes(slug)) chosen = chosen.filter((other) => other !== slug);
		else if (chosen.length < 3) chosen.push(slug);
		counted();
		remember();
	}

	function pick(node) {
		if (!on()) return;
		const slug = node.dataset.slug;
		const title = stock.designs.find((design) => design.slug === slug)?.title;
		if (!title) return;
		const button = make("button", { type: "button", class: "pick", "aria-pressed": chosen.includes(slug), "aria-label": said(stock.say["compare-pick"], { title }), onclick: () => choose(slug) });
		node.append(button);
	}

	function counted() {
		all("[data-slug]").forEach((node) => one(".pick", node)?.setAttribute("aria-pressed", chosen.includes(node.dataset.slug)));
		tray.hidden = !on();
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
			const image = picture && make("img", { src: address(root, picture, 0), srcset: sizes(root, picture), sizes: "30vw", alt: picture.alt, width: picture.width, height: picture.height });
			if (image) image.style.width = `${(design.scale.width / widest) * 100}%`;
			return make("td", { role: "cell", class: design.accent }, ...(image ? [image] : []),
				make("a", { href: home + design.href }, design.title),
				make("button", { type: "button", class: "drop", "aria-label": said(stock.say["compare-drop"], { title: design.title }), onclick: () => {
					choose(design.slug);
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

	return {
		pick,
		chosen: () => (on() ? chosen : []),
		async recall(slugs) {
			await turn(true, slugs);
			if (chosen.length > 1) sideBySide();
		},
	};
}
