(function () {
  "use strict";
  // Each head of a sortable table is a button; the numbers and words to sort by stand beside the table, row by row.
  document.querySelectorAll(".dl-sortable:not([data-ready])").forEach(function (box) {
    var table = box.querySelector("table"), source = box.parentElement.querySelector("script.dl-sort");
    if (!table || !source) return;
    box.dataset.ready = "1";
    var values = JSON.parse(source.textContent), body = table.tBodies[0];
    var rows = Array.prototype.slice.call(body.rows);
    Array.prototype.forEach.call(table.tHead.rows[0].cells, function (head, column) {
      var button = document.createElement("button");
      button.type = "button";
      button.className = "dl-sort-head";
      while (head.firstChild) button.appendChild(head.firstChild);
      head.appendChild(button);
      button.addEventListener("click", function () {
        var falling = head.getAttribute("aria-sort") === "ascending";
        Array.prototype.forEach.call(table.tHead.rows[0].cells, function (h) { h.removeAttribute("aria-sort"); });
        head.setAttribute("aria-sort", falling ? "descending" : "ascending");
        var order = rows.map(function (_, i) { return i; });
        order.sort(function (a, b) {
          var x = values[a][column], y = values[b][column];
          // What is missing goes last, whichever way.
          if (x === null || y === null) return (x === null) - (y === null) || a - b;
          var less = x < y ? -1 : x > y ? 1 : 0;
          return (falling ? -less : less) || a - b;
        });
        order.forEach(function (i) { body.appendChild(rows[i]); });
      });
    });
  });
})();
