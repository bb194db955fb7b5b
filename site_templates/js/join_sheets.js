// Sheets that stand in one document. Every sheet was made to stand alone: here its ids, and all that refers to them,
// get the sheet's place in the set in front, and what is for the sheet's own page only is taken out.
(function () {
  "use strict";

  var ONE = ["for", "form", "list"];
  var SEVERAL = [
    "headers", "aria-labelledby", "aria-describedby", "aria-details", "aria-controls", "aria-owns", "aria-flowto",
    "aria-errormessage", "aria-activedescendant"
  ];
  var OWN_PAGE = "form.print-choice, .at-machine, .alike, dialog, template, script, a.explains";

  function join(sheet, number) {
    var own = {}, first = "sheet-" + number + "-";

    sheet.querySelectorAll(OWN_PAGE).forEach(function (element) { element.remove(); });
    sheet.querySelectorAll("[id]").forEach(function (element) { own[element.id] = true; });

    function renamed(id) { return Object.prototype.hasOwnProperty.call(own, id) ? first + id : id; }

    function words(text) { return text.split(/\s+/).filter(Boolean).map(renamed).join(" "); }

    function refer(attribute) {
      var name = attribute.name, text = attribute.value;
      if (name === "id" || ONE.indexOf(name) >= 0) { return renamed(text); }
      if (SEVERAL.indexOf(name) >= 0) { return words(text); }
      if (/(^|:)href$/.test(name) && text.charAt(0) === "#") {
        var id = decodeURIComponent(text.slice(1));
        return renamed(id) === id ? text : "#" + encodeURIComponent(renamed(id));
      }
      return text.indexOf("url(") < 0 ? text : text.replace(/url\((["']?)#([^"')]+)\1\)/g, function (all, quote, id) {
        return "url(" + quote + "#" + renamed(id) + quote + ")";
      });
    }

    [sheet].concat(Array.from(sheet.querySelectorAll("*"))).forEach(function (element) {
      Array.from(element.attributes).forEach(function (attribute) {
        var now = refer(attribute);
        if (now !== attribute.value) { attribute.value = now; }
      });
    });
    sheet.querySelectorAll("input").forEach(function (input) { // a copy: written on is the sheet's own page
      if (input.type === "checkbox") { input.disabled = true; } else { input.readOnly = true; }
    });
  }

  document.querySelectorAll(".sheet-set > article.sheet").forEach(function (sheet, at) { join(sheet, at + 1); });
  window.setupSheet = window.setupSheet || {};
  window.setupSheet.join = join;
})();
