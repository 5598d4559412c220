(function () {
  "use strict";
  function units() {
    return document.documentElement.dataset.units === "us" ? "us" : "si";
  }
  function start(explorer) {
    if (explorer.dataset.started) return;
    explorer.dataset.started = "1";
    var cases = JSON.parse(explorer.querySelector("script.dl-cases").textContent);
    var removal = explorer.querySelector('[name="removal"]');
    var overlay = explorer.querySelector('[name="overlay"]');
    var threshold = explorer.querySelector('[name="threshold"]');
    var answer = explorer.querySelector(".dl-explorer-answer");
    var chart = explorer.querySelector("figure.dl-chart");
    var source = chart.querySelector("script.dl-figure");
    function show() {
      var chosen = cases.find(function (c) {
        return c.removal === Number(removal.value) && c.overlay === overlay.selectedIndex && c.threshold === threshold.selectedIndex;
      });
      if (!chosen) return;
      var figure = JSON.parse(source.textContent);
      ["p05", "p95", "p50"].forEach(function (name, i) {
        figure.data[i].y = chosen[name] || [];
      });
      source.textContent = JSON.stringify(figure);
      answer.textContent = chosen.text;
      var depth = explorer.querySelector(".dl-removal");
      depth.textContent = units() === "us" ? chosen.depthUs : chosen.depthSi;
      removal.setAttribute("aria-valuetext", depth.textContent);
      explorer.querySelectorAll("option").forEach(function (o) {
        o.textContent = o.dataset[units()];
      });
      window.DeckLife.draw(chart);
    }
    [removal, overlay, threshold].forEach(function (control) {
      control.addEventListener("input", show);
    });
    document.addEventListener("dl-units", show);
    show();
  }
  window.DeckLife.explore = function () {
    document.querySelectorAll(".dl-explorer").forEach(start);
  };
  window.DeckLife.explore();
})();
