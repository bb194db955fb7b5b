// Gives this sheet to the page that puts a set together. From disk a page may not read another file, but it may show
// it in a frame, and what is in the frame may say what it is. On a server only the same site is told.
(function () {
  "use strict";

  var sheet = document.querySelector("article.sheet");
  if (!sheet || window.parent === window || window.name !== "setup-sheet-for-a-set") { return; }

  function give() {
    var copy = sheet.cloneNode(true);
    var written = sheet.querySelectorAll("input");
    copy.querySelectorAll("input").forEach(function (input, number) { // what was written on the page goes along
      input.toggleAttribute("checked", written[number].checked);
      if (input.type !== "checkbox") { input.setAttribute("value", written[number].value); }
    });
    copy.querySelectorAll("[src]").forEach(function (element) { element.setAttribute("src", element.src); });
    copy.querySelectorAll("a[href]:not([href^='#'])").forEach(function (link) { link.setAttribute("href", link.href); });

    window.parent.postMessage(
      { setupSheet: copy.outerHTML }, location.protocol === "file:" ? "*" : location.origin
    );
  }

  var unpacked = window.setupSheet && window.setupSheet.unpacked; // of a long sheet
  if (unpacked) { unpacked.then(give); } else { give(); }
})();
