// The groups of values beside the table of jobs: folded, counted, the most frequent first, ticked to choose.
(function () {
  "use strict";

  var say = window.setupSheet.say;
  var FEW = 8, MANY = 20; // values shown at first; values from which on a group has a box to look for one
  var LABELS = {
    kind: say("Kind of thread"), pitch: say("Pitch"), hand: say("Hand"), side: say("Outside or inside"),
    material: say("Material"), lathe: say("Lathe"), holding: say("Held by"), customer: say("Customer"), year: say("Year"),
    status: say("Status"), duty: say("Duty"), mate: say("Mate"), findings: say("Findings")
  };
  var NEWEST = "year"; // this one is not sorted by count
  var SAID = { // of values that stand in the data, and in an address, as they are in every language
    kind: { "no thread": say("no thread") },
    hand: { right: say("right-hand"), left: say("left-hand") },
    side: { outside: say("outside"), inside: say("inside") },
    mate: {
      "on the bench": say("on the bench"), "measured, not here": say("measured, not here"), "not seen": say("not seen"),
      unknown: say("unknown"), "no mate named": say("no mate named")
    }
  };

  function element(name, text) {
    var made = document.createElement(name);
    if (text !== undefined) { made.textContent = text; }
    return made;
  }

  function said(name, value) {
    if (name === "findings") { return value.replace(/-/g, " "); }
    return name === "status" ? window.setupSheet.status(value) : SAID[name] && SAID[name][value] || value;
  }

  // A group for `name` at the end of `place`; `changed(value, on)` is called for a tick, `opened()` when it unfolds.
  function group(place, name, changed, opened) {
    var fold = element("details"), title = element("summary", LABELS[name]), many = element("span");
    var box = element("input"), list = element("ul"), more = element("button");
    var all = false, shown = { values: new Map(), chosen: [] };
    fold.dataset.facet = name;
    many.className = "facet-chosen";
    title.append(" ", many);
    box.type = "search";
    box.autocomplete = "off";
    box.placeholder = say("find one of them");
    box.setAttribute("aria-label", say("Find a value of {label}", { label: LABELS[name] }));
    box.hidden = more.hidden = true;
    more.type = "button";
    fold.append(title, box, list, more);
    place.append(fold);

    fold.addEventListener("toggle", function () { if (fold.open) { opened(); } });
    box.addEventListener("input", function (event) { event.stopPropagation(); draw(); });
    list.addEventListener("change", function (event) { changed(event.target.value, event.target.checked); });
    more.addEventListener("click", function () { all = !all; draw(); });

    function inOrder() {
      var wanted = window.setupSheet.words.fold(box.value.trim());
      var found = Array.from(shown.values).filter(function (pair) {
        return (pair[1] || shown.chosen.includes(pair[0])) &&
          window.setupSheet.words.fold(said(name, pair[0])).includes(wanted);
      });
      return found.sort(function (one, other) {
        var byName = one[0].localeCompare(other[0], "en", { numeric: true });
        return name === NEWEST ? -byName : other[1] - one[1] || byName;
      });
    }

    function line(pair) {
      var item = element("li"), label = element("label"), tick = element("input");
      tick.type = "checkbox";
      tick.autocomplete = "off";
      tick.value = pair[0];
      tick.checked = shown.chosen.includes(pair[0]);
      var count = element("span", String(pair[1]));
      count.className = "facet-count";
      label.append(tick, element("span", said(name, pair[0])), count);
      item.append(label);
      return item;
    }

    function draw() {
      var found = inOrder(), limit = all ? found.length : FEW;
      var at = list.contains(document.activeElement) ? document.activeElement.value : null;
      var first = found.filter(function (pair, place) { return place < limit || shown.chosen.includes(pair[0]); });
      list.replaceChildren.apply(list, first.map(line));
      if (at !== null) {
        var again = Array.from(list.querySelectorAll("input")).find(function (tick) { return tick.value === at; });
        (again || title).focus();
      }
      box.hidden = shown.values.size < MANY && !box.value;
      more.hidden = found.length <= FEW;
      more.textContent = all ? say("Fewer") : say("{left} more", { left: found.length - first.length });
    }

    // `values`: value -> count, or undefined where they are not known because nobody looks at them.
    function show(values, chosen) {
      many.textContent = chosen.length ? say("{many} chosen", { many: chosen.length }) : "";
      if (!values) { return; }
      chosen.forEach(function (value) { if (!values.has(value)) { values.set(value, 0); } });
      shown = { values: values, chosen: chosen };
      draw();
    }

    return { name: name, fold: fold, show: show };
  }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.groups = { group: group, LABELS: LABELS, said: said };
})();
