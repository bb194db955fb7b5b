// Ticks and fields of the sheet and of the large view: filled from what is kept, kept at every change. A field
// that stands in two places shows the same in both. Text only ever enters the page as text.
(function () {
  "use strict";

  var ours = window.setupSheet;
  if (!ours || !ours.data) { return; }
  var source = ours.source, data = ours.data;
  var sheet = source.closest("article.sheet");
  var section = source.closest(".at-machine");
  var template = document.getElementById("entry-field");
  var kept = new ours.Kept([data.owner, data.folder], data.revision);
  var fields = {}; // id -> its elements
  var by = section.querySelector("[data-by]");

  var NUMBERS = ["dial", "time"];

  function field(place, what) {
    if (place.matches("input")) { return place; }
    var input = template.content.firstElementChild.cloneNode(true);
    input.setAttribute("aria-label", what.label);
    if (NUMBERS.indexOf(what.takes) >= 0 || what.kind === "size" || what.kind === "turns") { input.inputMode = "decimal"; }
    place.append(input);
    return input;
  }

  function show(id) {
    var value = kept.value(id);
    (fields[id] || []).forEach(function (element) {
      if (element.type === "checkbox") {
        element.checked = value === true;
      } else {
        var text = typeof value === "string" ? value : "";
        if (element.value !== text) { element.value = text; }
      }
    });
  }

  function showAll() { Object.keys(fields).forEach(show); }

  function write(id, value) { kept.write(id, value, data.entries[id], by.value); }

  function changed(event) {
    var id = event.target.dataset.of;
    if (!id) { return; }
    write(id, event.target.type === "checkbox" ? event.target.checked : event.target.value);
  }

  function take(part) {
    Array.prototype.forEach.call(part.querySelectorAll("[data-entry]"), function (place) {
      var id = place.dataset.entry, what = data.entries[id];
      if (!what) { return; }
      var element = field(place, what);
      element.dataset.of = id;
      (fields[id] = fields[id] || []).push(element);
    });
  }

  take(sheet);
  sheet.addEventListener("unpacked", function (event) { // parts of a long sheet that come later
    event.detail.forEach(take);
    showAll();
  });
  sheet.addEventListener("input", changed);
  kept.listen(function (id) { if (id === null || !fields[id]) { showAll(); } else { show(id); } });
  window.addEventListener("pageshow", showAll); // back from another page, or the browser filled fields by itself
  document.addEventListener("visibilitychange", function () { if (!document.hidden) { kept.tell(null); } });

  by.value = kept.remembered("by") || "";
  by.addEventListener("input", function () { kept.remember("by", by.value); });

  showAll();
  sheet.classList.add("can-keep");
  section.hidden = false;
  ours.page = {
    data: data, sheet: sheet, section: section, kept: kept, write: write,
    by: function () { return by.value; },
    isDone: function (id) {
      var value = kept.value(id);
      return value === true || (typeof value === "string" && value !== "");
    }
  };
})();
