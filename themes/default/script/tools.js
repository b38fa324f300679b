// What the other parts of the script share. They stand in one function, one after the other; every page is whole without them.

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

/** A dialog over the page that is gone once closed. Focus goes back by itself. */
function modal(name, attributes, close, ...children) {
	const dialog = make("dialog", { class: name, ...attributes }, make("button", { type: "button", class: "close", "aria-label": close, onclick: () => dialog.close() }, "×"), ...children);
	dialog.addEventListener("close", () => dialog.remove());
	dialog.addEventListener("click", (event) => event.target === dialog && dialog.close());
	document.body.append(dialog);
	dialog.showModal();
	return dialog;
}

const said = (text, values) => text.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);

/** A size of one of the shelf's pictures, and all of them. */
const address = (root, picture, at) => root + picture.stem + picture.sizes[at][1];
const sizes = (root, picture) => picture.sizes.map(([width], at) => `${address(root, picture, at)} ${width}w`).join(", ");
