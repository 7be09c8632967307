"use strict";
(() => {
  const table = document.querySelector("table");
  const body = table.tBodies[0];
  const heads = [...table.tHead.rows[0].cells];
  const order = [...body.rows];
  const text = new Intl.Collator("en", { numeric: true });
  const value = (row, column) => row.cells[column].textContent.trim();

  // Rows without a value stand last, whichever way the order runs.
  const compare = (a, b, way) => {
    if (a === "" || b === "") return (a === "") - (b === "");
    const x = Number(a), y = Number(b);
    return way * (Number.isNaN(x) || Number.isNaN(y) ? text.compare(a, b) : x - y);
  };

  const sort = (column, way) => {
    const keyed = order.map((row, place) => ({ row, place, key: value(row, column) }));
    keyed.sort((a, b) => compare(a.key, b.key, way) || a.place - b.place);
    body.append(...keyed.map((item) => item.row));
    heads.forEach((head, i) => {
      if (i === column) head.setAttribute("aria-sort", way > 0 ? "ascending" : "descending");
      else head.removeAttribute("aria-sort");
    });
  };

  heads.forEach((head, column) => {
    if (column === 0) return;
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    button.addEventListener("click", () =>
      sort(column, head.getAttribute("aria-sort") === "ascending" ? -1 : 1));
    head.replaceChildren(button);
  });
  document.querySelector(".script").hidden = false;
})();
