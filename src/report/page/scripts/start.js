// The data of the page and its words. All scripts of this folder stand in one function, in the order of CMakeLists.txt.
const data = JSON.parse(document.getElementById("data").textContent);
document.documentElement.classList.add("scripts");

function say(key, fillings = {}) {
  return data.words[key].replace(/\{(\w+)\}/g, (_, name) => fillings[name]);
}

function number(value, decimals = 0) {
  return new Intl.NumberFormat(undefined, { minimumFractionDigits: decimals, maximumFractionDigits: decimals }).format(value);
}

/// A figure that was rounded where it was worked out, with the decimals that it has.
function plainNumber(value) {
  return new Intl.NumberFormat(undefined, { maximumFractionDigits: 9 }).format(value);
}

/// An element; children are elements, or texts that stay texts.
function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== undefined) element.setAttribute(name, value);
  }
  element.append(...children.filter((child) => child !== null && child !== ""));
  return element;
}

function bytes(base64) {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}

/// Numbers and dates in the page's text, as the reader's country writes them.
function localise(root) {
  for (const element of root.querySelectorAll("data")) {
    const decimals = (element.value.split(".")[1] || "").length;
    element.textContent = number(Number(element.value), decimals);
  }
  const dates = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeZone: "UTC" });
  for (const element of root.querySelectorAll("time")) element.textContent = dates.format(new Date(element.dateTime));
}
