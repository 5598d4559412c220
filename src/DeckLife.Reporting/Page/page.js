(function () {
  "use strict";
  var inputs = document.querySelectorAll('input[name="dl-units"]');
  inputs.forEach(function (input) {
    input.checked = input.value === document.documentElement.dataset.units;
    input.addEventListener("change", function () {
      if (input.checked) window.DeckLife.setUnits(input.value);
    });
  });
  // The command asks for a paper when it prints: a style can't be asked from outside.
  var paper = /^#paper=(a4|letter)$/.exec(location.hash);
  if (paper) {
    var size = document.createElement("style");
    size.textContent = "@page{size:" + paper[1] + "}";
    document.head.appendChild(size);
  }
  // A link into a closed details element opens it.
  function open() {
    var target = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    for (var e = target; e; e = e.parentElement) if (e.tagName === "DETAILS") e.open = true;
  }
  window.addEventListener("hashchange", open);
  open();
})();
