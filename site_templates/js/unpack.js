// Puts the parts of a long job's page back that were packed to keep it light. `setupSheet.unpacked` is kept when all
// are there; the sheet is told of each with the event "unpacked". What cannot be unpacked keeps its notice.
(function () {
  "use strict";

  var sheet = document.querySelector("article.sheet");
  var parts = sheet ? Array.prototype.slice.call(sheet.querySelectorAll(".packed")) : [];
  if (!parts.length) { return; }

  function text(packed) {
    var bytes = Uint8Array.from(atob(packed), function (sign) { return sign.charCodeAt(0); });
    return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"))).text();
  }

  function unpack(part) {
    return Promise.resolve(part.querySelector("script").textContent.trim()).then(text).then(function (html) {
      var template = document.createElement("template");
      template.innerHTML = html;
      var elements = Array.prototype.slice.call(template.content.children);
      part.replaceWith(template.content);
      sheet.dispatchEvent(new CustomEvent("unpacked", { detail: elements }));
    }, function () { /* an old browser: the notice says what to do */ });
  }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.unpacked = Promise.all(parts.map(unpack));
})();
