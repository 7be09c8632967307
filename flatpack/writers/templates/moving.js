(function () {
  "use strict";
  var data = JSON.parse(document.getElementById("travel").textContent);
  var moments = data.moments, section = document.getElementById("move");
  var slider = document.getElementById("position");
  var buttons = Array.prototype.slice.call(section.querySelectorAll("button"));
  var rows = Array.prototype.slice.call(section.querySelectorAll(".gaps tbody tr"));
  var still = window.matchMedia("(prefers-reduced-motion: reduce)");
  var running = 0;

  function part(id) { return document.getElementById(id); }

  function heavier(number) {
    ["frame", "back", "arm"].forEach(function (carrier) {
      var body = number < 0 ? "" : data.pairs[number][carrier] || "";
      if (body) { part("bold-" + carrier).setAttribute("href", "#" + body); }
      else { part("bold-" + carrier).removeAttribute("href"); }
    });
  }

  function state(m) { return m[4] ? data.stops[m[4] - 1] : data.states[m[3]]; }

  function show(index) {
    var m = moments[index];
    part("back").setAttribute("transform", "rotate(" + -m[0] + ")");
    part("arm").setAttribute("transform",
      "translate(" + m[1][0] + " " + -m[1][1] + ") rotate(" + -m[2] + ")");
    part("angle").textContent = m[0].toFixed(1) + "°";
    part("rod-state").textContent = state(m);
    slider.setAttribute("aria-valuetext", m[0].toFixed(1) + "°, " + state(m));
    heavier(m[6]);
    part("ring").setAttribute("visibility", m[7] ? "visible" : "hidden");
    if (m[7]) { part("ring").setAttribute("transform", "translate(" + m[7][0] + " " + -m[7][1] + ")"); }
    part("nearest").textContent = m[6] < 0 ? data.far : data.pairs[m[6]].title;
    rows.forEach(function (row, i) {
      var gap = m[5][i], near = i === m[6];
      row.className = near ? "nearest" : "";
      row.querySelector(".here").textContent =
        (gap < 0 ? data.overlap + " " + (-gap).toFixed(1) : gap.toFixed(1)) +
        (near ? " (" + data.near + ")" : "");
    });
    buttons.forEach(function (b) {
      b.setAttribute("aria-pressed", String(+b.value === index));
    });
  }

  function go(index) {
    slider.value = index;
    show(index);
  }

  function run(target) {
    window.cancelAnimationFrame(running);
    if (still.matches) { go(target); return; }
    (function step() {
      var at = +slider.value;
      if (at === target) { return; }
      go(at + (at < target ? 1 : -1));
      running = window.requestAnimationFrame(step);
    })();
  }

  slider.addEventListener("input", function () {
    window.cancelAnimationFrame(running);
    show(+slider.value);
  });
  buttons.forEach(function (b) {
    b.addEventListener("click", function () { run(+b.value); });
  });
  section.hidden = false;
  go(0);
})();
