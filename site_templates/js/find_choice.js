// What is chosen in the archive, and how an address says it: index.html#find=words&lathe=…&lathe=…&size=2 in..50 mm.
// A sheet's link says what to look for in the same way. Nothing in an address is ever more than text to look for.
(function () {
  "use strict";

  var INCH = 25.4; // mm, exactly
  var FACETS = ["kind", "pitch", "hand", "side", "material", "lathe", "holding", "customer", "year", "status", "duty",
    "mate", "findings"];
  var SORTS = ["written", "newest", "number", "title", "size", "pitch", "material", "lathe", "customer"];

  function nothing() {
    var chosen = {};
    FACETS.forEach(function (name) { chosen[name] = []; });
    return { find: "", written: false, from: "", to: "", sort: SORTS[0], chosen: chosen };
  }

  // null where it is no address of ours.
  function fromHash(hash) {
    var choice = nothing(), clear = true;
    hash.replace(/^#/, "").split("&").filter(Boolean).forEach(function (part) {
      var at = part.indexOf("="), name = part.slice(0, at), value = "";
      try { value = decodeURIComponent(part.slice(at + 1)); } catch (error) { clear = false; }
      if (name === "find") { choice.find = value; }
      if (name === "in") { choice.written = value === "written"; }
      if (name === "sort" && SORTS.includes(value)) { choice.sort = value; }
      if (name === "size") {
        choice.from = value.split("..")[0];
        choice.to = value.split("..")[1] || "";
      }
      if (FACETS.includes(name) && !choice.chosen[name].includes(value)) { choice.chosen[name].push(value); }
    });
    return clear ? choice : null;
  }

  function toHash(choice) {
    var parts = [];
    function part(name, value) { parts.push(name + "=" + encodeURIComponent(value)); }
    if (choice.find.trim()) { part("find", choice.find); }
    if (choice.written) { part("in", "written"); }
    FACETS.forEach(function (name) { choice.chosen[name].forEach(function (value) { part(name, value); }); });
    if (choice.from.trim() || choice.to.trim()) { part("size", choice.from.trim() + ".." + choice.to.trim()); }
    if (choice.sort !== SORTS[0]) { part("sort", choice.sort); }
    return parts.length ? "#" + parts.join("&") : "";
  }

  // A size as it is typed -> mm: "2 in", "1 1/2", "50 mm", "M30"; a fraction is of an inch. NaN where that is not clear.
  function size(text) {
    var plain = window.setupSheet.pointed(text.trim().toLowerCase()).replace(/[ø⌀]/g, "").replace(",", ".").replace(/^m\s*(?=\d)(.*?)(?:\s*mm)?$/, "$1 mm");
    var read = /^(?:(\d+)(?:\s+|-))?(\d+)\/(\d+)\s*(in|inch|inches|"|″|mm)?$/.exec(plain);
    if (read) {
      var value = Number(read[1] || 0) + Number(read[2]) / Number(read[3]);
      return read[4] === "mm" ? value : value * INCH;
    }
    read = /^(\d+\.?\d*|\.\d+)\s*(in|inch|inches|"|″|mm)$/.exec(plain);
    return read ? Number(read[1]) * (read[2] === "mm" ? 1 : INCH) : NaN;
  }

  function figures(number, places) { return window.setupSheet.figures(String(Number(number.toFixed(places)))); }

  // A size in both units: "2 in (50.8 mm)".
  function bothUnits(mm) { return figures(mm / INCH, 4) + " in (" + figures(mm, 3) + " mm)"; }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.choice = {
    FACETS: FACETS, SORTS: SORTS, nothing: nothing, fromHash: fromHash, toHash: toHash, size: size, bothUnits: bothUnits
  };
})();
