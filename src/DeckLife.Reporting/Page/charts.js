(function () {
  "use strict";
  var D = (window.DeckLife = window.DeckLife || {});
  var root = document.documentElement;
  function css(name, fallback) {
    return getComputedStyle(root).getPropertyValue(name).trim() || fallback;
  }
  function units() {
    return root.dataset.units === "us" ? "us" : "si";
  }
  function themed(layout) {
    var ink = css("--ink", "#222"), muted = css("--muted", "#555"), grid = css("--grid", "#ddd");
    layout.paper_bgcolor = "rgba(0,0,0,0)";
    layout.plot_bgcolor = "rgba(0,0,0,0)";
    layout.font = { family: css("--sans", "sans-serif"), size: 13, color: ink };
    Object.keys(layout).forEach(function (key) {
      if (/^[xy]axis\d*$/.test(key)) {
        Object.assign(layout[key], { gridcolor: grid, linecolor: muted, tickcolor: muted, zerolinecolor: grid, showline: true, ticks: "outside", ticklen: 4 });
      }
    });
    // A line's label stands on the page's ground, so that curves do not strike it through.
    (layout.annotations || []).forEach(function (a) {
      if (!a.bgcolor) a.bgcolor = css("--paper", "#fff");
      if (!a.borderpad) a.borderpad = 2;
    });
    layout.hoverlabel = { bgcolor: css("--paper", "#fff"), font: { color: ink }, bordercolor: muted };
    return layout;
  }
  function figureOf(chart) {
    return chart.querySelector('script.dl-figure[data-units="' + units() + '"]') || chart.querySelector("script.dl-figure");
  }
  function draw(chart) {
    var plot = chart.querySelector(".dl-plot"), source = figureOf(chart);
    if (!plot || !source || !window.Plotly) return;
    var figure = JSON.parse(source.textContent);
    var layout = themed(figure.layout || {});
    layout.autosize = true;
    window.Plotly.react(plot, figure.data, layout, { displayModeBar: false, responsive: true });
    plot.dataset.drawn = "1";
    var alternative = units() === "us" ? plot.dataset.altUs : plot.dataset.altSi;
    if (alternative) plot.setAttribute("aria-label", alternative);
  }
  D.draw = draw;
  D.drawAll = function (again) {
    document.querySelectorAll("figure.dl-chart").forEach(function (chart) {
      var plot = chart.querySelector(".dl-plot");
      if (again || (plot && !plot.dataset.drawn)) draw(chart);
    });
  };
  D.setUnits = function (system) {
    root.dataset.units = system;
    D.drawAll(true);
    document.dispatchEvent(new Event("dl-units"));
  };
  function fit() {
    document.querySelectorAll(".dl-plot[data-drawn]").forEach(function (plot) {
      window.Plotly.relayout(plot, { width: plot.clientWidth, height: plot.clientHeight });
    });
  }
  window.addEventListener("beforeprint", function () {
    root.classList.add("dl-printing");
    D.drawAll(true);
    fit();
    // What a reader closed stays closed; what a page can't unfold is left out by the style sheet.
  });
  window.addEventListener("afterprint", function () {
    root.classList.remove("dl-printing");
    D.drawAll(true);
  });
  if (window.matchMedia) {
    window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", function () {
      D.drawAll(true);
    });
  }
  D.drawAll();
})();
