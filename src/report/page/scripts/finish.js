// Sets all in motion.
for (const tag of document.querySelectorAll("bdi[data-tree]")) {
  const button = table.opener(Number(tag.dataset.tree));
  tag.replaceWith(button);
}
for (const rule of document.querySelectorAll("[data-rule]")) {
  const words = rule.textContent;
  rule.replaceChildren(make("button", { type: "button", class: "tag", onclick: () => table.showRule(rule.dataset.rule, words) }, words));
}
localise(document);
table.start();
map.start();
