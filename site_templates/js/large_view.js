// The large view: one step or pass at a time. Next and Back, arrows, space, Home, End; Escape closes it.
// The dialog holds the focus while it is open and gives it back.
(function () {
  "use strict";

  var page = window.setupSheet && window.setupSheet.page;
  var view = document.getElementById("large-view");
  if (!page) { return; }

  var lock = null;

  function keepAwake() { // a screen that goes dark between two passes has to be woken with oily hands
    try {
      navigator.wakeLock.request("screen").then(function (got) { lock = got; }, function () {});
    } catch (error) { /* this browser cannot */ }
  }

  function letSleep() { if (lock) { lock.release(); lock = null; } }

  Array.prototype.forEach.call(document.querySelectorAll("dialog.large-view"), function (dialog) {
    if (!dialog.showModal) { return; }
    dialog.querySelector("[data-closes]").addEventListener("click", function () { dialog.close(); });
    dialog.addEventListener("close", function () { if (!document.querySelector("dialog.large-view[open]")) { letSleep(); } });
  });

  Array.prototype.forEach.call(page.sheet.querySelectorAll("[data-opens]"), function (button) {
    var dialog = document.getElementById(button.dataset.opens);
    button.hidden = !dialog.showModal;
    button.addEventListener("click", function () {
      dialog.dispatchEvent(new CustomEvent("opening", { detail: button }));
      dialog.showModal();
      keepAwake();
      dialog.dispatchEvent(new CustomEvent("opened"));
    });
  });

  if (!view) { return; }
  var cards = Array.prototype.slice.call(view.querySelectorAll(".card"));
  var says = view.querySelector("[data-says]:not(.card)"), box = view.querySelector(".cards");
  var next = view.querySelector("[data-next]"), back = view.querySelector("[data-back]");
  var at = 0;

  function show(place) {
    at = Math.min(Math.max(place, 0), cards.length - 1);
    cards.forEach(function (card, number) { card.hidden = number !== at; });
    back.setAttribute("aria-disabled", String(at === 0)); // not disabled: it would lose the focus
    next.setAttribute("aria-disabled", String(at === cards.length - 1));
    box.scrollTop = 0;
    says.textContent = cards[at].dataset.says;
    if (view.open && !view.contains(document.activeElement)) { next.focus(); }
  }

  function go(by) {
    var focused = document.activeElement;
    show(at + by);
    if (focused && focused !== document.body && !focused.getClientRects().length) { next.focus(); }
  }

  function firstOpen() {
    var place = cards.findIndex(function (card) {
      return !page.isDone(card.dataset.tick || card.dataset.field);
    });
    return place < 0 ? 0 : place;
  }

  view.addEventListener("opening", function () { show(firstOpen()); });
  view.addEventListener("opened", function () { next.focus(); });
  next.addEventListener("click", function () { go(1); });
  back.addEventListener("click", function () { go(-1); });

  view.addEventListener("click", function (event) {
    var button = event.target.closest("[data-planned]");
    if (button) { page.write(button.dataset.for, button.dataset.planned); }
  });

  var MOVES = { ArrowRight: 1, ArrowDown: 1, PageDown: 1, ArrowLeft: -1, ArrowUp: -1, PageUp: -1 };

  view.addEventListener("keydown", function (event) {
    var on = event.target, types = on.matches("input[type=text], select, textarea");
    if (types || event.altKey || event.ctrlKey || event.metaKey) { return; }
    if (event.key in MOVES) { go(MOVES[event.key]); }
    else if (event.key === "Home") { go(-cards.length); }
    else if (event.key === "End") { go(cards.length); }
    else if (event.key === " " && !on.matches("button, input, a")) { go(1); }
    else { return; }
    event.preventDefault();
  });
})();
