// A link to one kind of sheet prints it.
for (const link of document.querySelectorAll(".print-only")) link.addEventListener("click", () => setTimeout(() => window.print()));
